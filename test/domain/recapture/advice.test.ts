import { expect, test } from "vitest";
import { PUBLISHED_AIMS } from "#domain/aim/published.ts";
import { METHODS, type Method } from "#domain/capture/method.ts";
import type { Shortfall } from "#domain/master/judgement.ts";
import { edgeSlopeDegrees, glareClearanceMm } from "#domain/plan/lighting.ts";
import {
  type AdviceForMethod,
  adviceForMethod,
  adviceOn,
  adviceOnFirstCapture,
  adviceOnMethod,
  type Circumstances,
} from "#domain/recapture/advice.ts";
import type { RecaptureLine } from "#domain/recapture/recapture-line.ts";

const made = (method: Method | null, refused: readonly Method[] = []): Circumstances => ({
  method,
  refusal: (each) =>
    refused.includes(each) ? { title: "Still wet inside", cause: "It was processed five days ago.", source: "test" } : null,
});

const short = (measure: string, value: number | null, required: number, notShown: string | null = null): Shortfall => ({
  measure,
  sense: "at-least",
  required,
  bound: null,
  value,
  notShown,
});

const said = (shortfall: Shortfall, circumstances: Circumstances) =>
  adviceOn(shortfall, circumstances)
    .map((advice) => advice.sentence)
    .join(" ");

/** Every requirement of every purpose, failed by every method. */
const EVERYTHING = PUBLISHED_AIMS.flatMap((aim) =>
  aim.limits
    .filter((limit) => limit.provedBy === "print" && (limit.requiredAtLeast !== null || limit.requiredAtMost !== null))
    .flatMap((limit) => {
      const required = limit.requiredAtLeast ?? limit.requiredAtMost ?? 0;
      const failing = limit.requiredAtLeast === null ? required * 2 : required / 2;
      return METHODS.map((method) => ({ shortfall: short(limit.measure, failing, required), method }));
    }),
);

test("every requirement of every purpose has advice with a source, for every method", () => {
  expect(EVERYTHING.length).toBeGreaterThan(40);
  for (const { shortfall, method } of EVERYTHING) {
    const advice = adviceOn(shortfall, made(method));
    expect(advice.length, `${shortfall.measure} by ${method}`).toBeGreaterThan(0);
    for (const { sentence, source } of advice) {
      expect(sentence).toMatch(/\.$/);
      expect(source.length).toBeGreaterThan(5);
    }
  }
});

test("nothing ever advises to press, flatten or open a print, or to put glass on it", () => {
  const measures = [
    "sfr50CyPerMm",
    "sfr10CyPerMm",
    "samplingEfficiencyPercent",
    "noiseDeltaL",
    "borderLightnessSpreadPercent",
    "evennessPercent",
    "borderCastA",
    "borderCastB",
    "borderCastChroma",
    "sharpeningOvershootPercent",
    "focusFalloffPercent",
    "motionMm",
    "glarePeakDeltaL",
    "hazePercent",
    "scaleErrorPercent",
    "jpegQuality",
  ];
  const all = [...EVERYTHING, ...measures.flatMap((measure) => METHODS.map((method) => ({ shortfall: short(measure, 1, 2), method })))];
  for (const { shortfall, method } of all) {
    const sentence = said(shortfall, made(method)).replace("do not press it", "");
    expect(sentence, shortfall.measure).not.toMatch(
      /flatten|\bpress|under glass|glass plate|weigh it|lid down|open the print|cut the|peel/i,
    );
  }
});

test("too few pixels by a camera: nearer by 392 / 310 = 1.26", () => {
  expect(said(short("samplingPpi", 310, 392), made("copy-stand-camera"))).toContain("1.26 times");
});

test("too few pixels by a scanner: the next usual step above 392 and its 2 % of tolerance is 400 ppi", () => {
  expect(said(short("samplingPpi", 299, 392), made("flatbed-scanner"))).toContain("400 ppi");
});

test("where only a bound leaves it open, the advice is that of a miss, and never a ruler or another bound", () => {
  const open = (measure: string, value: number, bound: "lower" | "upper", required: number): Shortfall => ({
    ...short(measure, value, required, "only a bound is known, at least that"),
    bound,
  });
  const camera = said(open("samplingPpi", 300, "lower", 392), made("phone-camera"));
  expect(camera).toMatch(/margin of 3 to 5 mm .* Move the camera closer/);
  expect(said(open("samplingPpi", 300, "lower", 392), made("flatbed-scanner"))).toMatch(/margin of 3 to 5 mm .* Set it to 400 ppi/);
  expect(said(open("samplingPpi", 400, "upper", 392), made("copy-stand-camera"))).toMatch(/^Move the camera closer/);
  expect(said(open("sfr50CyPerMm", 3, "lower", 4), made("copy-stand-camera"))).toMatch(/^Focus on the print/);
  for (const words of [camera, said(open("sfr50CyPerMm", 3, "lower", 4), made(null))]) expect(words).not.toMatch(/ruler|readable|bound/);
});

test("an unknown size is cured with a ruler, not with the camera", () => {
  expect(said(short("samplingPpi", null, 392, "the size of the print is not known"), made("phone-camera"))).toMatch(/ruler/);
});

test("glare of a camera is cured by where the lamps stand", () => {
  expect(said(short("glareAreaPercent", 9, 2), made("phone-camera"))).toMatch(/family of angles.*crossed polarisers/);
});

test("lamps at 45° are never called safe without a distance: the plan, which works it out, is pointed to", () => {
  // two lamps at 45° and 400 mm, 200 mm across, mirror into the lens over a print of 180 × 240 mm that rises by 2 mm
  const lamps = { count: 2, elevationDegrees: 45, distanceMm: 400, widthMm: 200 } as const;
  expect(glareClearanceMm(lamps, 120, 610, edgeSlopeDegrees(2, 180))).toBeLessThan(0);
  for (const measure of ["glareAreaPercent", "borderGlarePercent", "glarePeakDeltaL"]) {
    const [move] = adviceOn(short(measure, 9, 2), made("copy-stand-camera"));
    expect(move?.sentence).toMatch(/usually clear .* far enough out/);
    expect(move?.sentence).not.toContain("safe");
    expect(move?.needsPlan).toBe(true);
  }
});

test("a method that the print forbids is told, and the advice leaves it out", () => {
  const [dont, instead] = adviceOnMethod(made("sheet-fed-scanner", ["sheet-fed-scanner", "flatbed-scanner"]));
  expect(dont).toEqual({
    sentence: "Do not use a sheet-fed scanner for this print again: Still wet inside. It was processed five days ago.",
    source: "test",
  });
  expect(instead?.sentence).toBe("Use a camera on copy stand.");
});

test("where every method is forbidden, a conservator is asked", () => {
  expect(adviceOnFirstCapture(made(null, METHODS))[0]?.sentence).toMatch(/conservator/);
});

test("a good method needs no other", () => {
  expect(adviceOnMethod(made("flatbed-scanner"))).toEqual([]);
});

test("missing levels are cured before the edit, not after it", () => {
  expect(said(short("missingLevelsPercent", 15, 4), made("phone-camera"))).toContain("save raw and develop in 16 bits");
  expect(said(short("missingLevelsPercent", 15, 4), made("flatbed-scanner"))).toContain("scan in 16 bits");
});

test("streaks of a scanner are cured where they lie on its strip, those of a camera are not wiped off", () => {
  for (const measure of ["streakCount", "streakDeltaL"]) {
    expect(said(short(measure, 3, 0), made("sheet-fed-scanner"))).toContain("Clean the strip of glass");
    expect(said(short(measure, 3, 0), made("copy-stand-camera"))).not.toContain("Clean");
  }
  expect(said(short("bandingDeltaL", 0.5, 0.2), made("phone-camera"))).toContain("flicker");
  expect(said(short("bandingDeltaL", 0.5, 0.2), made("flatbed-scanner"))).toContain("lamp warm up");
});

test("a fall-off of sharpness is cured by a level camera, on a scanner by how the print lies", () => {
  expect(said(short("focusFalloffPercent", 40, 15), made("copy-stand-camera"))).toMatch(/parallel to the print/);
  expect(said(short("focusFalloffPercent", 40, 15), made("flatbed-scanner"))).toMatch(/own weight/);
});

test("a movement is cured by a firm stand and a shorter exposure", () => {
  expect(said(short("motionMm", 0.4, 0.1), made("phone-camera"))).toMatch(/firm stand.*shorter exposure/);
});

test("a file that was processed is to be fetched from the device itself", () => {
  for (const measure of ["processingSignCount", "doubleSaveSigma"])
    expect(said(short(measure, 5, 0), made("phone-camera"))).toContain("from the device itself");
});

test("haze is cured by keeping stray light off lens and glass", () => {
  expect(said(short("hazePercent", 4, 1), made("phone-camera"))).toMatch(/hood.*clean the lens/);
  expect(said(short("hazePercent", 4, 1), made("flatbed-scanner"))).toMatch(/glass on both sides/);
});

test("dust is blown or wiped off, never retouched", () => {
  for (const method of ["flatbed-scanner", "copy-stand-camera"] as const) {
    expect(said(short("dustPerCm2", 3, 1), made(method))).toContain("rubber bulb");
    expect(said(short("scratchLengthMm", 3, 1), made(method))).toContain("not let software remove");
  }
});

test("rings are cured by distance from the glass", () => {
  expect(said(short("ringAreaPercent", 5, 0), made("flatbed-scanner"))).toContain("off the glass");
  expect(said(short("ringAreaPercent", 5, 0), made("copy-stand-camera"))).toContain("window mat");
});

/** A side captured so, short in sampling. */
function shortLine(method: Method | null, refused: readonly Method[] = []): RecaptureLine {
  const circumstances = made(method, refused);
  const shortfall = short("samplingPpi", 300, 392);
  const reason = { ...shortfall, label: "Sampling", unit: "ppi", sentence: "", advice: adviceOn(shortfall, circumstances) };
  const best = { captureId: 1, fileName: "a.jpg", method, setUpName: null };
  const of = {
    printId: 1,
    objectNumber: "1",
    title: "",
    processId: "",
    placePath: [],
    side: "front",
    purposeKey: "",
    purposeName: "",
  } as const;
  return { ...of, why: "falls-short", best, reasons: [reason], advice: adviceOnMethod(circumstances), stillMeasuring: false };
}
const sentences = ({ reasons, advice }: AdviceForMethod) =>
  [...reasons.flatMap((reason) => reason.advice), ...advice].map((each) => each.sentence);

test("for another kind of device the old one's settings are not told, but what any first capture aims at, each once", () => {
  const refused: Method[] = ["flatbed-scanner"];
  const line = shortLine("flatbed-scanner", refused);
  const told = sentences(adviceForMethod(line, "copy-stand-camera", made("flatbed-scanner", refused).refusal));
  expect(told.join(" ")).toContain("Do not use a flatbed scanner for this print again");
  expect(told.join(" ")).toContain("Aim at 600 pixels per inch of the print");
  expect(told.join(" ")).not.toContain("Set it to 400 ppi");
  expect(new Set(told).size).toBe(told.length);
});

test.each([
  ["the same device", "flatbed-scanner", "flatbed-scanner", "Set it to 400 ppi"],
  ["another camera", "phone-camera", "copy-stand-camera", "Move the camera closer"],
  ["an unknown method", null, "copy-stand-camera", "set it to 400 ppi"],
] as const)("for %s the advice stays as it is", (_, was, now, kept) => {
  const line = shortLine(was);
  expect(adviceForMethod(line, now, made(was).refusal)).toEqual({ reasons: line.reasons, advice: line.advice });
  expect(sentences(line).join(" ")).toContain(kept);
});
