import { expect, test, vi } from "vitest";
import { captureFinePrint, drawFinePrint, type FineCapture } from "../../../fixtures/fine-captures.ts";
import { editedFine } from "../../../fixtures/fine-edits.ts";
import { readingsOf, savedAsJpeg } from "../../../fixtures/fine-sets.ts";
import { presentOf } from "../../../fixtures/readings.ts";

vi.setConfig({ testTimeout: 120_000 });

const print = drawFinePrint(431);
const ONE: FineCapture = { ppi: 300, blurMm: 0.06, noiseCodes: 3, noiseSeed: 11, turnDeg: 1, cornersOffMm: 0.1 };
const first = captureFinePrint(print, ONE);
const second = captureFinePrint(print, { ...ONE, noiseSeed: 12, turnDeg: -1 });

test.each([
  ["cut and made lighter", () => editedFine(first, { cutPx: 7, gamma: 0.9 })],
  ["made smaller", () => editedFine(first, { scale: 0.8 })],
])("a capture %s is told as the same exposure, and another exposure is not", async (_, copyOf) => {
  const [one, other, copy] = (await readingsOf([first, second, await copyOf()])) as [never, never, never];
  expect(presentOf(one, "savedAgainCount")).toMatchObject({ value: 1, reliability: "firm", detail: { sameExposureAs: [2] } });
  expect(presentOf(copy, "savedAgainCount")).toMatchObject({ value: 1, detail: { sameExposureAs: [0] } });
  expect(presentOf(other, "savedAgainCount")).toMatchObject({ value: 0, detail: { sameExposureAs: [] } });
  // a copy is no third witness: what is left are comparisons of two
  for (const readings of [one, other, copy])
    expect(presentOf(readings, "detailCyPerMm")).toMatchObject({ reliability: "fair", bound: "lower" });
});

test("saved so hard that most of its noise is gone, a copy is only said to share noise, weakly", async () => {
  const [one, copy] = (await readingsOf([first, await savedAsJpeg(first, 75)])) as [never, never];
  for (const [readings, other] of [
    [one, 1],
    [copy, 0],
  ] as const)
    expect(presentOf(readings, "savedAgainCount")).toMatchObject({ value: 0, reliability: "weak", detail: { sharesNoiseWith: [other] } });
});
