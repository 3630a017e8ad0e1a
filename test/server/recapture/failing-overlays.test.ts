import { expect, test } from "vitest";
import type { Reading } from "#domain/measure/reading.ts";
import { replaceReadings } from "#drizzle/queries/measures.ts";
import { failingPicture } from "#server/recapture/failing-overlays.ts";
import { writeAreas } from "#server/work/areas-file.ts";
import { measuredCapture } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const corner = (x: number, y: number) => ({ x, y });
const SHEET = { topLeft: corner(10, 10), topRight: corner(90, 10), bottomRight: corner(90, 90), bottomLeft: corner(10, 90) };
const SIDES = { top: "seen", right: "seen", bottom: "seen", left: "seen" };
const TRIANGLE = [corner(0, 0), corner(0.5, 0), corner(0, 0.5)];

/** A capture in which everything is marked that marks an area. */
async function markedCapture() {
  const context = emptyCollection();
  const id = measuredCapture(context.db, null, {});
  const names = [
    "glareAreaPercent",
    "clippedHighlightsPercent",
    "clippedShadowsPercent",
    "streakCount",
    "ringAreaPercent",
    "dustPerCm2",
  ] as const;
  const readings = names.map((name): Reading => ({ name, value: 5, reliability: "fair", area: [{ of: "sheet", loops: [TRIANGLE] }] }));
  replaceReadings(context.db, id, "alone", {
    readings,
    basis: { found: [{ sheet: SHEET, image: null, sides: SIDES, cornerSpreadPx: 0.5 }] },
    durationMs: null,
  });
  await writeAreas(context.folder, id, "alone", readings);
  return { context, id };
}

test.each([
  [["glareAreaPercent"], ["glare"]],
  [["glarePeakDeltaL"], ["glare"]],
  [
    ["clippedHighlightsPercent", "clippedShadowsPercent"],
    ["highlights", "shadows"],
  ],
  [["streakDeltaL"], ["streaks"]],
  [["ringAreaPercent"], ["rings"]],
  [["scratchLengthMm"], ["dust"]],
  [["skewDegrees"], ["outline"]],
  [["samplingPpi", "lossless"], []],
])("of a capture that fails in %j a work sheet draws %j, and nothing else that is marked in it", async (failing, drawn) => {
  const { context, id } = await markedCapture();
  const picture = await failingPicture(context, id, failing);
  expect(picture?.overlays.map(({ id }) => id)).toEqual(drawn);
});

test("of a capture that is gone nothing is drawn", async () => {
  expect(await failingPicture(emptyCollection(), 99, ["glareAreaPercent"])).toBeNull();
});
