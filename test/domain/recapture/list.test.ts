import { expect, test } from "vitest";
import { atLeast, atMost } from "#domain/aim/limit.ts";
import { choose } from "#domain/master/choose.ts";
import type { MeasureName } from "#domain/measure/catalogue.ts";
import { inOrderOfWork, type RecaptureCase, recaptureLine } from "#domain/recapture/list.ts";
import { capture } from "../master/captures.ts";

const LIMITS = [
  atLeast("lossless", { lowest: 0, best: 1, required: 1 }, 1, ["own", "test"]),
  atLeast("samplingPpi", { lowest: 200, best: 600, required: 392 }, 1, ["own", "test"]),
  atMost("clippedHighlightsPercent", { best: 0, highest: 2, required: 0.5 }, 1, ["own", "test"]),
];

/** A print whose captures were judged by the limits above; one that was never captured without `read`. */
function caseOf(read: Partial<Record<MeasureName, number | string>> | null, known: Partial<RecaptureCase> = {}): RecaptureCase {
  const explanation = choose(read ? [capture(1, read)] : [], LIMITS);
  return {
    printId: 5,
    objectNumber: "1978.005",
    title: "On the pier",
    processId: "not-known",
    placePath: ["Study", "Box 2"],
    side: "front",
    stillMeasuring: false,
    purpose: { key: "preservation-master", name: "Preservation master" },
    captures: read ? [{ captureId: 1, fileName: "capture-1.tif", method: "copy-stand-camera", setUpName: null }] : [],
    choice: read ? { captureId: explanation.masterId, explanation } : null,
    isExempt: false,
    refusal: () => null,
    ...known,
  };
}

const GOOD = { lossless: 1, samplingPpi: 450, clippedHighlightsPercent: 0.1 };

test("a print whose master meets every requirement is not on the list", () => {
  expect(recaptureLine(caseOf(GOOD))).toBeNull();
});

test("a front that was never captured is on the list, a back is not", () => {
  expect(recaptureLine(caseOf(null))).toMatchObject({ why: "no-capture", best: null, reasons: [], objectNumber: "1978.005" });
  expect(recaptureLine(caseOf(null, { side: "back" }))).toBeNull();
});

test("a side that a person said is good enough is not on the list, captured or not", () => {
  const short = { ...GOOD, samplingPpi: 310 };
  expect(recaptureLine(caseOf(short))?.why).toBe("falls-short");
  expect(recaptureLine(caseOf(short, { isExempt: true }))).toBeNull();
  expect(recaptureLine(caseOf(null, { isExempt: true }))).toBeNull();
});

test("captures that nothing was chosen from yet say nothing", () => {
  expect(recaptureLine(caseOf(GOOD, { choice: null }))).toBeNull();
});

test("a shortfall is told with the value, what is asked and by how much: 310 ppi, 392 asked, 82 missing", () => {
  const line = recaptureLine(caseOf({ ...GOOD, samplingPpi: 310 }));
  expect(line).toMatchObject({ why: "falls-short", best: { captureId: 1, fileName: "capture-1.tif", method: "copy-stand-camera" } });
  expect(line?.reasons).toHaveLength(1);
  expect(line?.reasons[0]).toMatchObject({
    measure: "samplingPpi",
    label: "Sampling",
    unit: "ppi",
    value: 310,
    required: 392,
    sentence: "Sampling is 310 ppi where at least 392 ppi is asked, 82 ppi too little.",
  });
});

test("every requirement that is missed is on the line", () => {
  const line = recaptureLine(caseOf({ lossless: 0, samplingPpi: 310, clippedHighlightsPercent: 1.25 }));
  expect(line?.reasons.map((reason) => reason.sentence)).toEqual([
    "Its compression throws values away.",
    "Sampling is 310 ppi where at least 392 ppi is asked, 82 ppi too little.",
    "Clipped highlights are 1.25 % where at most 0.50 % is asked, 0.75 % too much.",
  ]);
});

test("a master that a person chose is still on the list when it misses a requirement", () => {
  const fallsShort = caseOf({ ...GOOD, lossless: 0 });
  if (!fallsShort.choice) throw new Error("the case needs a choice");
  const byHand = { ...fallsShort, choice: { ...fallsShort.choice, captureId: 1 } };
  expect(recaptureLine(byHand)?.reasons.map((reason) => reason.measure)).toEqual(["lossless"]);
});

test("the list follows the places, and numbers are counted: Box 2 before Box 10, 1978.9 before 1978.12", () => {
  const line = (objectNumber: string, box: string) => {
    const made = recaptureLine(caseOf(null, { objectNumber, placePath: ["Study", box] }));
    if (!made) throw new Error("no line");
    return made;
  };
  const ordered = inOrderOfWork([line("1978.12", "Box 2"), line("1978.1", "Box 10"), line("1978.9", "Box 2")]);
  expect(ordered.map((each) => each.objectNumber)).toEqual(["1978.9", "1978.12", "1978.1"]);
});

test("a value that rounds to what is asked is told with as many decimals as it takes, and never as 0 too little", () => {
  const line = recaptureLine(caseOf({ ...GOOD, samplingPpi: 391.8 }));
  expect(line?.reasons[0]?.sentence).toBe("Sampling is 391.8 ppi where at least 392.0 ppi is asked.");
});
