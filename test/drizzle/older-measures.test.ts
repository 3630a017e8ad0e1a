import { eq } from "drizzle-orm";
import { expect, test } from "vitest";
import { schema } from "#drizzle/client.ts";
import { replaceReadings } from "#drizzle/queries/measures.ts";
import { listMeasuredByOlderVersions } from "#drizzle/queries/older-measures.ts";
import { claimWork, enqueueCompare, failWork, finishWork, type Work } from "#drizzle/queries/work.ts";
import { keptPrint, measuredCapture } from "../fixtures/captured-print.ts";
import { emptyCollection } from "../fixtures/collection.ts";

const NOW = "2026-01-01T00:00:00.000Z";

/** Two captures of a print's front and one of its back, of which an older version read the glare by comparison, all else by this one. */
function comparedLongAgo() {
  const { db } = emptyCollection();
  const printId = keptPrint(db, "A.1");
  const [one, two, back] = (["front", "front", "back"] as const).map((side) =>
    measuredCapture(db, printId, { samplingPpi: 400 }, { side }),
  ) as [number, number, number];
  for (const id of [one, two, back])
    replaceReadings(db, id, "together", {
      readings: [{ name: "glareAreaPercent", value: 1, reliability: "firm" }],
      basis: {},
      durationMs: null,
    });
  const { measures } = schema;
  db.update(measures).set({ methodVersion: 0 }).where(eq(measures.name, "glareAreaPercent")).run();
  const readAloneLongAgo = () => db.update(measures).set({ methodVersion: 0 }).where(eq(measures.name, "samplingPpi")).run();
  return { db, printId, one, two, back, readAloneLongAgo };
}

test("what an older comparison read is offered, but not while one of that side waits or runs, nor once it failed", () => {
  const { db, printId, one, two, back } = comparedLongAgo();
  expect(listMeasuredByOlderVersions(db)).toEqual([one, two, back]);
  enqueueCompare(db, printId, "front");
  expect(listMeasuredByOlderVersions(db), "waiting").toEqual([back]);
  const work = claimWork(db, NOW, NOW) as Work;
  expect(listMeasuredByOlderVersions(db), "running").toEqual([back]);
  failWork(db, work.id, "A file is gone.", NOW);
  expect(listMeasuredByOlderVersions(db), "failed").toEqual([back]);
});

test("a comparison that is done and left older readings leaves them offered", () => {
  const { db, printId, one, two, back } = comparedLongAgo();
  enqueueCompare(db, printId, "front");
  finishWork(db, claimWork(db, NOW, NOW) as Work, NOW);
  expect(listMeasuredByOlderVersions(db)).toEqual([one, two, back]);
});

test("what an older version read of a capture alone is offered whatever became of the comparison", () => {
  const { db, printId, one, two, back, readAloneLongAgo } = comparedLongAgo();
  readAloneLongAgo();
  enqueueCompare(db, printId, "front");
  failWork(db, (claimWork(db, NOW, NOW) as Work).id, "A file is gone.", NOW);
  expect(listMeasuredByOlderVersions(db)).toEqual([one, two, back]);
});
