import { expect, test } from "vitest";
import type { RecaptureReason } from "#domain/recapture/recapture-line.ts";
import { recapturePriority } from "#domain/recapture/recapture-priority.ts";
import { carePriority } from "#domain/storage/care-priority.ts";
import { known, notKnown } from "#domain/storage/climate/series.ts";

const reason = (measure: string, value: number | null, required: number, sense: "at-least" | "at-most"): RecaptureReason => ({
  measure,
  value,
  required,
  sense,
  bound: null,
  notShown: value === null ? "not read" : null,
  label: measure,
  unit: "",
  sentence: "",
  advice: [],
});
const SAMPLING = reason("samplingPpi", 300, 392, "at-least");
const JPEG = reason("lossless", 0, 1, "at-least");

const CARE = carePriority({
  grade: "fair",
  findings: [{ severity: 2, activity: "active" }],
  significance: 4,
  climate: known({ outsideShare: 0.1, unknownShare: 0, mouldDays: 0 }),
});

test("need, care and significance are multiplied: 4 for never captured, fair 2 × active 3 × climate 2, significance 4", () => {
  const made = recapturePriority({ why: "no-capture", reasons: [] }, CARE);
  expect(made.factors.need.score).toBe(4);
  expect(made.factors.care.score).toBe(12);
  expect(made.factors.significance.score).toBe(4);
  expect(made).toMatchObject({ score: 192, least: 192, most: 192 });
  expect(made.factors.care.because).toContain("damage goes on");
});

test.each([
  ["one measure a little short", [SAMPLING], 1],
  ["two measures a little short", [SAMPLING, JPEG], 2],
  ["less than half of what is asked", [reason("samplingPpi", 195, 392, "at-least")], 3],
  ["half of what is asked is not less than half", [reason("samplingPpi", 196, 392, "at-least")], 1],
  ["more than twice what is allowed", [reason("keystonePercent", 4.1, 2, "at-most")], 3],
  ["twice what is allowed is not more", [reason("keystonePercent", 4, 2, "at-most")], 1],
  ["a file with loss, which is no matter of half", [JPEG], 1],
])("need of %s", (_, reasons, score) => {
  expect(recapturePriority({ why: "falls-short", reasons }, CARE).factors.need).toMatchObject({ score, isKnown: true });
});

test("what is not shown may be good or far off, and the range says so", () => {
  const made = recapturePriority({ why: "falls-short", reasons: [SAMPLING, reason("keystonePercent", null, 2, "at-most")] }, CARE);
  expect(made.factors.need).toMatchObject({ score: 2, least: 1, most: 3, isKnown: false });
  expect(made).toMatchObject({ score: 96, least: 48, most: 144 });
});

test("a print that nobody surveyed or judged counts as a middling case, with its range", () => {
  const nothing = carePriority({ grade: null, findings: null, significance: null, climate: notKnown("no climate readings") });
  const made = recapturePriority({ why: "falls-short", reasons: [SAMPLING] }, nothing);
  expect(made).toMatchObject({ score: 1 * (2 * 2 * 2) * 3, least: 1, most: 4 * 3 * 3 * 5 });
});
