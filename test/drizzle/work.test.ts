import { expect, test } from "vitest";
import { type Queryable, schema } from "#drizzle/client.ts";
import { setCapturePrint } from "#drizzle/queries/captures.ts";
import {
  cancelWaiting,
  claimWork,
  enqueueCompare,
  enqueueMeasure,
  failWork,
  finishWork,
  holdsWork,
  letGoOfWork,
  releaseExpired,
  remeasurePrint,
  renewLease,
  resumeCancelled,
  retryFailed,
  returnWork,
  type Work,
} from "#drizzle/queries/work.ts";
import { countWork, listFailedWork, measuringOfCaptures, workProgress } from "#drizzle/queries/work-progress.ts";
import { keptPrint, measuredCapture } from "../fixtures/captured-print.ts";
import { emptyCollection } from "../fixtures/collection.ts";

const at = (second: number) => new Date(Date.UTC(2026, 0, 1, 0, 0, second)).toISOString();
const claim = (db: Queryable, second = 0) => claimWork(db, at(second), at(second + 30));

function family() {
  const { db } = emptyCollection();
  const printId = keptPrint(db, "A.1");
  return {
    db,
    printId,
    one: measuredCapture(db, printId, {}),
    two: measuredCapture(db, printId, {}),
    other: measuredCapture(db, null, {}),
  };
}

test("a capture waits once, however often it is asked for, and anew after it is done", () => {
  const { db, one } = family();
  enqueueMeasure(db, one);
  enqueueMeasure(db, one);
  expect(workProgress(db)).toMatchObject({ waiting: 1, running: 0, done: 0, failed: 0, cancelled: 0 });
  const work = claim(db);
  enqueueMeasure(db, one);
  expect(workProgress(db)).toMatchObject({ waiting: 0, running: 1 });
  finishWork(db, work as Work, at(1));
  enqueueMeasure(db, one);
  expect(workProgress(db)).toMatchObject({ waiting: 1, running: 0, done: 0 });
});

test("rows are claimed oldest first, each by one claimer", () => {
  const { db, one, two } = family();
  enqueueMeasure(db, two);
  enqueueMeasure(db, one);
  expect([claim(db), claim(db), claim(db)]).toMatchObject([{ captureId: two }, { captureId: one }, null]);
});

test("a comparison waits for its side's measuring, then goes first", () => {
  const { db, printId, one, other } = family();
  enqueueCompare(db, printId, "front");
  enqueueMeasure(db, one);
  const first = claim(db);
  expect(first).toMatchObject({ kind: "measure", captureId: one });
  expect(claim(db)).toBeNull();
  enqueueMeasure(db, other);
  finishWork(db, first as Work, at(1));
  expect(claim(db)).toMatchObject({ kind: "compare", printId, side: "front" });
  expect(claim(db)).toMatchObject({ kind: "measure", captureId: other });
});

test("work whose process died comes back when its lease ends, not before, and behind the others", () => {
  const { db, one, two } = family();
  enqueueMeasure(db, one);
  const lost = claim(db);
  enqueueMeasure(db, two);
  expect(releaseExpired(db, at(29))).toBe(0);
  expect(releaseExpired(db, at(31))).toBe(1);
  expect([claim(db, 31), claim(db, 31)]).toMatchObject([{ captureId: two }, { captureId: one, attempts: 2 }]);
  expect(lost && holdsWork(db, lost)).toBe(false);
});

test("a renewed lease keeps the work", () => {
  const { db, one } = family();
  enqueueMeasure(db, one);
  const work = claim(db);
  renewLease(db, work?.id ?? 0, at(60));
  expect(releaseExpired(db, at(59))).toBe(0);
  expect(work && holdsWork(db, work)).toBe(true);
});

test("a file that the program died of five times is left out, in words", () => {
  const { db, one } = family();
  enqueueMeasure(db, one);
  for (let round = 0; round < 5; round++) {
    expect(claim(db, round * 100)).not.toBeNull();
    releaseExpired(db, at(round * 100 + 99));
  }
  expect(claim(db, 900)).toBeNull();
  expect(listFailedWork(db)).toMatchObject([{ captureId: one, error: expect.stringContaining("5 times") }]);
});

test("work that its keeper stopped does not count as an attempt; a claim that was taken over ends nothing", () => {
  const { db, one } = family();
  enqueueMeasure(db, one);
  const first = claim(db) as Work;
  letGoOfWork(db, first.id);
  const second = claim(db) as Work;
  expect([first.attempts, second.attempts]).toEqual([1, 1]);
  releaseExpired(db, at(100));
  expect(claim(db)).toMatchObject({ attempts: 2 });
  finishWork(db, second, at(101));
  expect(workProgress(db)).toMatchObject({ running: 1, done: 0 });
});

test("what waits is cancelled and taken up again; what runs goes on", () => {
  const { db, one, two } = family();
  enqueueMeasure(db, one);
  const running = claim(db);
  enqueueMeasure(db, two);
  expect(cancelWaiting(db, at(1))).toBe(1);
  expect(workProgress(db)).toMatchObject({ running: 1, cancelled: 1, waiting: 0 });
  expect(running && holdsWork(db, running)).toBe(true);
  expect(resumeCancelled(db)).toBe(1);
  expect(claim(db)).toMatchObject({ captureId: two });
});

test("what was cancelled and asked for anew is not taken up twice", () => {
  const { db, printId, one } = family();
  enqueueMeasure(db, one);
  enqueueCompare(db, printId, "front");
  cancelWaiting(db, at(1));
  enqueueMeasure(db, one);
  enqueueCompare(db, printId, "front");
  expect(resumeCancelled(db)).toBe(0);
  expect(workProgress(db)).toMatchObject({ waiting: 2, cancelled: 0 });
});

test("a comparison that is let go while another waits makes way for it", () => {
  const { db, printId } = family();
  enqueueCompare(db, printId, "front");
  const running = claim(db);
  enqueueCompare(db, printId, "front");
  returnWork(db, running?.id ?? 0);
  expect(workProgress(db)).toMatchObject({ waiting: 1, running: 0 });
});

test("a print whose size changed has its captures measured anew, and no others", () => {
  const { db, printId, one, two, other } = family();
  setCapturePrint(db, other, { printId: null, side: "front" });
  remeasurePrint(db, printId);
  expect([...measuringOfCaptures(db, [one, two, other]).keys()].sort()).toEqual([one, two].sort());
});

test("failed work says why until it is asked for again", () => {
  const { db, one } = family();
  enqueueMeasure(db, one);
  failWork(db, claim(db)?.id ?? 0, "The file is gone. Bring it back.", at(1));
  expect(measuringOfCaptures(db, [one]).get(one)).toEqual({ state: "failed", error: "The file is gone. Bring it back." });
  enqueueMeasure(db, one);
  expect(measuringOfCaptures(db, [one]).get(one)).toEqual({ state: "waiting", error: null });
});

test("what failed waits again, each subject once, and what is done stays done", () => {
  const { db, printId, one, two } = family();
  enqueueMeasure(db, two);
  finishWork(db, claim(db) as Work, at(1));
  enqueueMeasure(db, one);
  failWork(db, claim(db)?.id ?? 0, "broken", at(1));
  // one comparison runs while the next waits already, and both fail
  enqueueCompare(db, printId, "front");
  const running = claim(db);
  enqueueCompare(db, printId, "front");
  const next = claim(db);
  for (const work of [running, next]) failWork(db, work?.id ?? 0, "broken", at(2));
  expect(workProgress(db)).toMatchObject({ waiting: 0, failed: 3, failedComparisons: 2, done: 1 });
  expect(countWork(db, "measure")).toEqual({ waiting: 0, running: 0, done: 1, failed: 1, cancelled: 0 });
  expect(countWork(db, "compare")).toEqual({ waiting: 0, running: 0, done: 0, failed: 2, cancelled: 0 });
  retryFailed(db);
  expect(workProgress(db)).toMatchObject({ waiting: 2, running: 0, done: 1, failed: 0, cancelled: 0 });
  expect(listFailedWork(db)).toEqual([]);
});

test("what is done counts towards a run as far back as work never stood still", () => {
  const { db, one, two, other } = family();
  const row = (captureId: number, createdAt: number, finishedAt: number | null) =>
    db
      .insert(schema.work)
      .values({
        kind: "measure",
        captureId,
        createdAt: at(createdAt),
        ...(finishedAt === null ? {} : { state: "done" as const, finishedAt: at(finishedAt) }),
      })
      .run();
  row(one, 0, 4);
  row(two, 0, 5);
  expect(workProgress(db), "nothing is open").toMatchObject({ done: 2, doneOfThisRun: 0 });
  row(one, 10, 12);
  // asked for by the one before, while that one was still in hand
  row(two, 11, 20);
  row(other, 19, null);
  expect(workProgress(db)).toMatchObject({ waiting: 1, done: 4, doneOfThisRun: 2 });
});
