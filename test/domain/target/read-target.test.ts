import { differenceCiede2000 } from "culori";
import { describe, expect, test } from "vitest";
import type { TargetMeasureName } from "#domain/aim/target-measures.ts";
import type { Lab } from "#domain/measure/colour/lab.ts";
import { targetLayout } from "#domain/target/layout.ts";
import { PRINTED_PAGE } from "#domain/target/printed-page.ts";
import { readTarget, type TargetRead, type TargetReading } from "#domain/target/read-target.ts";
import { type ReferenceValues, readReferenceValues } from "#domain/target/reference-values.ts";
import { drawTarget, type Faults, xyzOf } from "../../fixtures/drawn-target.ts";

/** Four greys, eight colours, two slanted edges; colours inside sRGB. Drawn for these tests alone. */
const LAYOUT = targetLayout.parse({
  name: "Drawn target",
  sheet: { widthMm: 60, heightMm: 40 },
  grids: [
    {
      leftMm: 4,
      topMm: 4,
      widthMm: 6,
      heightMm: 6,
      columnStepMm: 8,
      rowStepMm: 8,
      columns: 4,
      rows: 3,
      ids: ["G1", "G2", "G3", "G4", "C1", "C2", "C3", "C4", "C5", "C6", "C7", "C8"],
    },
  ],
  neutrals: ["G1", "G2", "G3", "G4"],
  edges: [
    { id: "edge-across", leftMm: 40, topMm: 4, widthMm: 14, heightMm: 14 },
    { id: "edge-down", leftMm: 40, topMm: 22, widthMm: 14, heightMm: 14 },
  ],
});
const COLOURS = new Map<string, Lab>([
  ["G1", [90, 0, 0]],
  ["G2", [70, 0, 0]],
  ["G3", [45, 0, 0]],
  ["G4", [22, 0, 0]],
  ["C1", [50, 40, 25]],
  ["C2", [60, -35, 30]],
  ["C3", [40, 10, -40]],
  ["C4", [75, 5, 55]],
  ["C5", [55, 45, -10]],
  ["C6", [60, -25, -15]],
  ["C7", [35, 15, 15]],
  ["C8", [65, 20, 20]],
]);
const REFERENCE: ReferenceValues = { patches: COLOURS, descriptor: null, serial: null, illuminant: "D50", observer: "2 degree" };

const read = (faults: Faults = {}, reference: ReferenceValues | null = REFERENCE) => {
  const { picture, sheet } = drawTarget(LAYOUT, COLOURS, faults);
  const read = readTarget(picture, sheet, LAYOUT, reference, { x: 10 * 25.4, y: 10 * 25.4 });
  if (!read) throw new Error("The drawn target was not read.");
  return read;
};
const shown = ({ readings }: TargetRead, name: TargetMeasureName) => {
  const reading = readings.find((each) => each.name === name);
  if (!reading || "absent" in reading) throw new Error(`${name} is absent: ${reading?.absent ?? "not asked"}`);
  return reading.value;
};

const noteOf = ({ readings }: TargetRead, name: TargetMeasureName) => {
  const reading = readings.find((each) => each.name === name);
  return reading && "note" in reading ? reading.note : undefined;
};

/** By the definition of L*a*b* (CIE 15), from light multiplied by a gain; written out again here, on neutral light only. */
const lightened = (lightness: number, gain: number): number => {
  const y = gain * xyzOf([lightness, 0, 0])[1];
  return y > 216 / 24389 ? 116 * Math.cbrt(y) - 16 : (24389 / 27) * y;
};

describe("a set-up without faults", () => {
  const clean = read();

  test("shows the colours as they are, and no misregistration", () => {
    expect(shown(clean, "colourAccuracyMaximumDeltaE")).toBeLessThan(0.05);
    expect(shown(clean, "toneResponseDeltaL")).toBeLessThan(0.05);
    expect(shown(clean, "whiteBalanceDeltaAb")).toBeLessThan(0.05);
    expect(shown(clean, "targetNoiseDeltaL")).toBeLessThan(0.02);
    expect(shown(clean, "targetMisregistrationPx")).toBeLessThan(0.02);
  });

  test("has the sampling that it was drawn with, and so the scale that the file claims", () => {
    expect(clean.ppi.x).toBeCloseTo(10 * 25.4, 3);
    expect(shown(clean, "reproductionScalePercent")).toBeLessThan(0.01);
  });

  test("says what it cannot: this target has no like patches all over its sheet", () => {
    expect(clean.readings.find(({ name }) => name === "lightnessUniformityPercent")).toMatchObject({
      absent: expect.stringContaining("white sheet"),
    });
  });
});

test.each([0.6, 0.8, 1.1])("a blur of %s px reads as ISO 12233 has it: SFR exp(-2π²σ²f²), in both directions", (blurPx) => {
  const blurred = read({ blurPx });
  // f where the response is a half and a tenth, in percent of half the sampling
  const half = (100 * Math.sqrt(Math.log(2) / 2)) / (Math.PI * blurPx) / 0.5;
  const tenth = (100 * Math.sqrt(Math.log(10) / 2)) / (Math.PI * blurPx) / 0.5;
  expect(Math.abs(shown(blurred, "targetSfr50SharePercent") / Math.min(100, half) - 1)).toBeLessThan(0.03);
  expect(Math.abs(shown(blurred, "targetSfr10EfficiencyPercent") / Math.min(100, tenth) - 1)).toBeLessThan(0.05);
  expect(shown(blurred, "targetPeakSfr")).toBeLessThan(1.02);
  expect(new Set(blurred.edges.map(({ direction }) => direction))).toEqual(new Set(["across", "down"]));
});

test.each([
  [1.03, 1, 3],
  [0.98, 1, 2],
  // the worse of the two directions
  [1.01, 0.96, 4],
])("a file that claims %s and %s of its true sampling across and down is off by %s %%", (across, down, percent) => {
  const { picture, sheet } = drawTarget(LAYOUT, COLOURS);
  const wrong = readTarget(picture, sheet, LAYOUT, REFERENCE, { x: across * 254, y: down * 254 });
  expect(wrong && shown(wrong, "reproductionScalePercent")).toBeCloseTo(percent, 2);
});

test("light that falls off by a known share is told as the unevenness that the definition of L* gives it", () => {
  const like = targetLayout.parse({
    name: "Like patches",
    sheet: { widthMm: 60, heightMm: 40 },
    patches: [5, 20, 35, 50].map((leftMm, index) => ({ id: `F${index}`, leftMm, topMm: 15, widthMm: 6, heightMm: 6 })),
    field: ["F0", "F1", "F2", "F3"],
  });
  const white = new Map<string, Lab>(like.field.map((id) => [id, [90, 0, 0]]));
  const { picture, sheet } = drawTarget(like, white, { fallOff: 0.3 });
  const uneven = readTarget(picture, sheet, like, { ...REFERENCE, patches: white }, { x: null, y: null });
  // the middles of the patches lie 8, 23, 38 and 53 of 60 mm across
  const lightness = [8, 23, 38, 53].map((mm) => lightened(90, 1 - (0.3 * mm) / 60));
  const mean = lightness.reduce((sum, each) => sum + each, 0) / 4;
  const deviation = Math.sqrt(lightness.reduce((sum, each) => sum + (each - mean) ** 2, 0) / 3);
  expect(uneven && shown(uneven, "lightnessUniformityPercent")).toBeCloseTo((100 * deviation) / mean, 1);
  expect((100 * deviation) / mean).toBeGreaterThan(3);
});

describe("the page that the program prints", () => {
  const { picture, sheet } = drawTarget(PRINTED_PAGE, new Map(PRINTED_PAGE.field.map((id) => [id, [86.8, 0, 0] as Lab])), { pxPerMm: 8 });
  const printed = readTarget(picture, sheet, PRINTED_PAGE, null, { x: 8 * 25.4, y: 8 * 25.4 }) as TargetRead;

  test("is read as drawn: all its edges in their places, at least as fine as they are, corners at most so good", () => {
    expect(printed.edges.map(({ response }) => "refused" in response)).toEqual(Array.from({ length: 10 }, () => false));
    expect(printed.turns).toBe(0);
    expect(printed.ppi.x).toBeCloseTo(203.2, 2);
    const half = (100 * Math.sqrt(Math.log(2) / 2)) / (Math.PI * 0.7) / 0.5;
    expect(Math.abs(shown(printed, "targetSfr50SharePercent") / half - 1)).toBeLessThan(0.03);
    expect(printed.readings.find(({ name }) => name === "targetSfr50SharePercent")).toMatchObject({ bound: "lower" });
    expect(printed.readings.find(({ name }) => name === "cornerSfr50OfMiddlePercent")).toMatchObject({ bound: "upper" });
  });

  test("proves no tone or colour, and its scale no better than it was cut: 0.5 of 180 mm are 0.3 %", () => {
    for (const name of ["toneResponseDeltaL", "colourAccuracyMeanDeltaE"] as const)
      expect(printed.readings.find((each) => each.name === name)).toHaveProperty("absent");
    expect(noteOf(printed, "reproductionScalePercent")).toMatch(/^Give or take 0\.3 %.*may be 0\.5 mm off/);
    expect(noteOf(read(), "reproductionScalePercent")).toBeUndefined();
  });
});

describe("corners held against the middle", () => {
  const at = (name: string, x: number, y: number) => [
    { id: `${name}-across`, leftMm: x, topMm: y, widthMm: 10, heightMm: 10 },
    { id: `${name}-down`, leftMm: x + 11, topMm: y, widthMm: 10, heightMm: 10 },
  ];
  const CORNERED = targetLayout.parse({
    name: "Edges in corners and middle",
    sheet: { widthMm: 90, heightMm: 60 },
    edges: [
      ...at("top-left", 2, 2),
      ...at("top-right", 67, 2),
      ...at("middle", 34, 25),
      ...at("bottom-left", 2, 48),
      ...at("bottom-right", 67, 48),
    ],
  });
  const readings = (blurPx: Faults["blurPx"], layout = CORNERED) => {
    const { picture, sheet } = drawTarget(layout, new Map(), { blurPx });
    return readTarget(picture, sheet, layout, null, { x: null, y: null })?.readings ?? [];
  };
  const corner = (all: readonly TargetReading[], share: 50 | 10) => all.find(({ name }) => name === `cornerSfr${share}OfMiddlePercent`);
  const softAt = (id: string) => (blurred: string) => (blurred === id ? 1.4 : 0.9);

  // of a Gaussian blur every frequency goes with 1/σ (ISO 12233 names the figure; the transform of a Gaussian is a Gaussian)
  test.each(["top-right-down", "bottom-left-across"])("one corner that is softer in one direction is told, with its place: %s", (id) => {
    const all = readings(softAt(id));
    const [half, tenth] = [corner(all, 50), corner(all, 10)];
    const [side, direction] = [id.replace(/-(across|down)$/, "").replace("-", " "), id.endsWith("down") ? "down" : "across"];
    for (const reading of [half, tenth]) {
      expect(reading).toMatchObject({ note: `Worst corner: ${side}, read ${direction} the frame.` });
      expect(reading).not.toHaveProperty("bound");
      expect(Math.abs((reading && "value" in reading ? reading.value : 0) / ((100 * 0.9) / 1.4) - 1)).toBeLessThan(0.04);
    }
  });

  test("an even softness is no softness of the corners", () => {
    const half = corner(readings(1.2), 50);
    expect(half && "value" in half && half.value).toBeGreaterThan(96);
  });

  test("a printed edge is soft itself, so corners are at most so good", () => {
    const soft = readings(softAt("top-left-down"), { ...CORNERED, softEdges: true });
    expect(corner(soft, 50)).toMatchObject({ bound: "upper" });
  });

  test("with an edge in one corner only, the worst of the four is at most that one", () => {
    const edges = CORNERED.edges.filter(({ id }) => id.startsWith("middle") || id.startsWith("top-left"));
    expect(corner(readings(1, { ...CORNERED, edges }), 50)).toMatchObject({
      bound: "upper",
      note: expect.stringContaining("1 of 4 corners"),
    });
  });

  test.each([
    ["no edge in the corners", (id: string) => id.startsWith("middle"), "lies in a corner of the frame"],
    ["no edge in the middle", (id: string) => !id.startsWith("middle"), "lies in the middle of the frame"],
    ["other directions in the corners", (id: string) => id.startsWith("middle") === id.endsWith("down"), "do not lie in one direction"],
  ] as const)("with %s the figure is absent, and says why", (_, keeps, why) => {
    const all = readings(1, { ...CORNERED, edges: CORNERED.edges.filter(({ id }) => keeps(id)) });
    for (const share of [50, 10] as const) expect(corner(all, share)).toMatchObject({ absent: expect.stringContaining(why) });
  });
});

test("a camera that is tilted over the target reads its patches and scale as one that is not", () => {
  const tilted = read({ keystonePx: 25 });
  expect(shown(tilted, "colourAccuracyMaximumDeltaE")).toBeLessThan(0.05);
  // by the projective map the middle of a keystone is drawn at the crossing of its diagonals, where a mm across takes
  // harmonic-mean many pixels: 2 · 600 · 550 / (600 + 550) over 60 mm
  expect(tilted.ppi.x).toBeCloseTo((25.4 * ((2 * 600 * 550) / 1150)) / 60, 1);
});

test("half a stop too dark is told by the grey it moves most, as the definition of L* has it", () => {
  const gain = 2 ** -0.5;
  const dark = read({ gain: [gain, gain, gain] });
  const worst = Math.max(...[90, 70, 45, 22].map((lightness) => lightness - lightened(lightness, gain)));
  expect(shown(dark, "toneResponseDeltaL")).toBeCloseTo(worst, 1);
});

test("a warm cast is told by white balance, and colour differences are those that an independent library works out", () => {
  const gain = [1, 0.93, 0.85] as const;
  const warm = read({ gain });
  const difference = differenceCiede2000();
  const lab = ([l, a, b]: Lab) => ({ mode: "lab65" as const, l, a, b });
  for (const patch of warm.patches) expect(patch.deltaE).toBeCloseTo(difference(lab(COLOURS.get(patch.id) as Lab), lab(patch.colour)), 4);
  const differences = warm.patches.map(({ deltaE }) => deltaE ?? 0);
  expect(shown(warm, "colourAccuracyMeanDeltaE")).toBeCloseTo(differences.reduce((sum, each) => sum + each, 0) / 12, 10);
  // of twelve, a tenth is the nearest to the 0.9 · 11 = 9.9th step up: the eleventh
  expect(shown(warm, "colourAccuracy90thDeltaE")).toBeCloseTo(differences.toSorted((a, b) => a - b)[10] ?? 0, 10);
  expect(shown(warm, "whiteBalanceDeltaAb")).toBeGreaterThan(5);
  expect(shown(read({ gain: [0.9, 0.9, 0.9] }), "whiteBalanceDeltaAb")).toBeLessThan(0.1);
});

test("red that lies 0.4 px to the right is told as misregistration of 0.4 px", () => {
  expect(shown(read({ redShiftPx: 0.4 }), "targetMisregistrationPx")).toBeCloseTo(0.4, 1);
});

test("a shift of 0.4 px both ways passes at 0.5 px: the larger of the two counts, and both together are told beside it", () => {
  const both = read({ redShiftPx: 0.4, redShiftDownPx: 0.4 });
  // each edge leans by 5°, so that the other shift takes back a little of it: 0.4 · (cos 5° − sin 5°) = 0.364
  expect(shown(both, "targetMisregistrationPx")).toBeCloseTo(0.364, 1);
  expect(shown(both, "targetMisregistrationPx")).toBeLessThan(0.4);
  // √2 · 0.364 = 0.514, which would miss 0.5
  expect(noteOf(both, "targetMisregistrationPx")).toMatch(/0\.3[5-7] px across and 0\.3[5-7] px down; together 0\.5[0-3] px/);
});

test("so little noise as no sensor has is told with a warning of smoothing (36 CFR 1236.50, table 2: below 0.25), and more is not", () => {
  expect(noteOf(read(), "targetNoiseDeltaL")).toContain("may have been smoothed");
  const noisy = read({ noise: 0.01 });
  expect(shown(noisy, "targetNoiseDeltaL")).toBeGreaterThan(0.25);
  expect(noteOf(noisy, "targetNoiseDeltaL")).toBeUndefined();
});

test("noise of 2 % of the light is told in L* by its worst patch: 116/3 · 0.02 · ∛Y", () => {
  const worst = ((116 / 3) * 0.02 * Math.cbrt(xyzOf([90, 0, 0])[1]) * 100) / 100;
  const noisy = shown(read({ noise: 0.02 }), "targetNoiseDeltaL");
  expect(noisy).toBeGreaterThan(0.9 * worst);
  expect(noisy).toBeLessThan(1.15 * worst);
});

test.each([1, 2, 3] as const)("a target that lies turned by %s quarters is turned back by its colours", (turns) => {
  const turned = read({ turns });
  expect(turned.turns).toBe(turns);
  expect(shown(turned, "colourAccuracyMaximumDeltaE")).toBeLessThan(0.05);
});

test("without reference values tone and colour are absent with the reason, and edges and noise are still read", () => {
  const blind = read({}, null);
  expect(blind.readings.find(({ name }) => name === "toneResponseDeltaL")).toEqual({
    name: "toneResponseDeltaL",
    absent: "no reference values came with the target",
  });
  expect(shown(blind, "targetSfr50SharePercent")).toBeGreaterThan(0);
});

test("one matching grey of four is no proof of tone: all greys must be seen and known", () => {
  const one: ReferenceValues = { ...REFERENCE, patches: new Map([["G1", [90, 0, 0]]]) };
  const { readings } = read({}, one);
  for (const name of ["toneResponseDeltaL", "whiteBalanceDeltaAb", "colourAccuracyMeanDeltaE"])
    expect(readings.find((each) => each.name === name)).toMatchObject({ absent: expect.stringContaining("only 1 of its") });
});

test("a sheet of other proportions is no such target", () => {
  const { picture, sheet } = drawTarget(LAYOUT, COLOURS);
  const squeezed = {
    ...sheet,
    topRight: { ...sheet.topRight, x: sheet.topLeft.x + 420 },
    bottomRight: { ...sheet.bottomRight, x: sheet.topLeft.x + 420 },
  };
  // 42 × 40 mm is neither 60 × 40 nor 40 × 60
  expect(readTarget(picture, squeezed, LAYOUT, REFERENCE, { x: null, y: null })).toBeNull();
});

test("edges that are soft of themselves prove only that it is at least as fine", () => {
  const { picture, sheet } = drawTarget(LAYOUT, COLOURS);
  const soft = readTarget(picture, sheet, { ...LAYOUT, softEdges: true }, REFERENCE, { x: null, y: null });
  expect(soft?.readings.find(({ name }) => name === "targetSfr50SharePercent")).toMatchObject({ bound: "lower" });
});

test("every measure that only a target proves is answered exactly once", () => {
  const names = read().readings.map(({ name }) => name);
  expect(new Set(names).size).toBe(names.length);
  expect(names.length).toBe(14);
});

describe("reference values", () => {
  const FILE = `CGATS.17
ORIGINATOR "Test"
DESCRIPTOR "Reference of target no. 7"
SERIAL "7"
WEIGHTING_FUNCTION "ILLUMINANT, D50"
WEIGHTING_FUNCTION "OBSERVER, 2 degree"
# a remark
NUMBER_OF_FIELDS 5
BEGIN_DATA_FORMAT
SAMPLE_ID SAMPLE_NAME LAB_L LAB_A LAB_B
END_DATA_FORMAT
NUMBER_OF_SETS 2
BEGIN_DATA
1 "A1" 96.52 -0.43 1.18
2 "A2" 81,30 -0,60 0,21
END_DATA
`;

  test("a CGATS.17 file is read by name and by number, with decimal points or commas", () => {
    const read = readReferenceValues(FILE);
    expect(read.ok && read.value.patches.get("A1")).toEqual([96.52, -0.43, 1.18]);
    expect(read.ok && read.value.patches.get("2")).toEqual([81.3, -0.6, 0.21]);
    expect(read.ok && read.value).toMatchObject({ serial: "7", illuminant: "D50", observer: "2 degree" });
  });

  test("X, Y, Z stand for L*a*b*: the white of D50 is 100, 0, 0", () => {
    const read = readReferenceValues(
      "CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID XYZ_X XYZ_Y XYZ_Z\nEND_DATA_FORMAT\nBEGIN_DATA\nW 96.42 100 82.49\nEND_DATA\n",
    );
    const white = read.ok ? read.value.patches.get("W") : undefined;
    for (const [index, value] of [100, 0, 0].entries()) expect(white?.[index]).toBeCloseTo(value, 6);
  });

  test.each([
    ["no table", "CGATS.17\nSERIAL 7\n", "no table"],
    ["values that are not numbers", FILE.replace("96.52", "white"), "A1 has a value that is not a number"],
    ["an empty cell, which is not nought", FILE.replace("96.52", '""'), "A1 has a value that is not a number"],
    ["values for another light", FILE.replace("ILLUMINANT, D50", "ILLUMINANT, D65"), "D65"],
    ["values for another observer", FILE.replace("OBSERVER, 2", "OBSERVER, 10"), "10 degree"],
    ["a line too short", FILE.replace(" 0,21", ""), "does not fill its 5 fields"],
    ["a picture instead", "\u0000\u0001binary", "no table"],
  ])("%s is refused in words", (_, text, words) => {
    const read = readReferenceValues(text);
    expect(!read.ok && read.refusals[0]?.happened).toContain(words);
  });
});

test("a layout with a patch outside its sheet, two of one name, or too few names is refused", () => {
  const wrong = (change: object) => targetLayout.safeParse({ ...LAYOUT, ...change }).success;
  expect(wrong({})).toBe(true);
  expect(wrong({ edges: [{ id: "e", leftMm: 50, topMm: 4, widthMm: 14, heightMm: 14 }] })).toBe(false);
  expect(wrong({ patches: [{ id: "G1", leftMm: 1, topMm: 1, widthMm: 1, heightMm: 1 }] })).toBe(false);
  expect(wrong({ grids: [{ ...LAYOUT.grids[0], ids: ["G1"] }] })).toBe(false);
  expect(wrong({ neutrals: ["Z9"] })).toBe(false);
});
