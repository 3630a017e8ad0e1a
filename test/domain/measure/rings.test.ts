import { describe, expect, test } from "vitest";
import { rings } from "#domain/measure/rings.ts";
import { ringsInDetailLadder, ringsLadder } from "../../accuracy/ladders/rings.ts";
import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { linesOf, ringsOf } from "../../fixtures/defects/interference.ts";
import { paperTexture } from "../../fixtures/defects/paper-texture.ts";
import { streaksOf } from "../../fixtures/defects/streaks.ts";
import { contextOf, pictureOf } from "../../fixtures/pictures.ts";
import { presentOf, reasonOf } from "../../fixtures/readings.ts";

type Options = NonNullable<Parameters<typeof captureSheet>[0]>;
const PLAIN = { ...SMALL, content: "pale-wall" } as const;
const RINGS = { xMm: 22, yMm: 23, radiusMm: 45_000, amplitude: 0.08, fadeMm: 9 } as const;

const readOf = (options: Options) => {
  const { picture, outline, context } = captureSheet({ turnDeg: 1, ppi: 150, print: PLAIN, ...options });
  return rings(picture, outline, context);
};

test("rings drawn over a plain picture are found round their place of contact", () => {
  const reading = presentOf(readOf({ seed: 81, defects: [ringsOf(RINGS)] }), "ringAreaPercent");
  expect(reading.value).toBeGreaterThan(8);
  expect(reading.bound).toBe("lower");
  // in mm of the picture, which starts 5 mm inside the sheet
  const contact = reading.detail?.contactMm as { xMm: number; yMm: number };
  expect(Math.hypot(contact.xMm - (RINGS.xMm - 5), contact.yMm - (RINGS.yMm - 5))).toBeLessThan(1);
  // a period is λ R / 2 r, so 1.1 mm are reached at r = 11.1 mm in green, and 5 mm at 2.5 mm
  const [place] = (reading.detail?.places ?? []) as { mm: { left: number; top: number; width: number; height: number } }[];
  const farthest = Math.max(contact.xMm - (place?.mm.left ?? 0), (place?.mm.left ?? 0) + (place?.mm.width ?? 0) - contact.xMm);
  expect(farthest).toBeGreaterThan(4);
  expect(farthest).toBeLessThan(14);
});

test("of one colour, as a lamp of one wavelength makes them, they are found too", () => {
  const oneColour = ringsOf({ ...RINGS, wavelengthsNm: [589, 589, 589] });
  expect(presentOf(readOf({ seed: 82, defects: [oneColour] }), "ringAreaPercent").value).toBeGreaterThan(5);
});

describe("what is no interference", () => {
  test.each([
    ["a plain picture", {}],
    ["straight stripes", { defects: [linesOf("stripes", 2, 0.05)] }],
    ["grooves at even distances", { defects: [linesOf("grooves", 2, 0.03)] }],
    ["embossed paper", { defects: [paperTexture(1.5, 0.03)] }],
    ["streaks", { defects: [streaksOf([{ along: "columns", atPx: 150, widthPx: 4, gain: 0.1 }])] }],
    ["glare", { glare: [{ x: 150, y: 150, sigmaPx: 30, peak: 0.15 }] }],
    ["noise", { noise: 1.5 }],
    ["uneven light", { light: { fallOff: 0.4, across: 0.3 } }],
  ] as const)("%s reads none, or is not told", (_, options) => {
    const [reading] = readOf({ seed: 83, ...options } as Options);
    expect(reading && "value" in reading ? reading.value : 0).toBe(0);
  });
});

test("in a detailed picture none found is never nought, but absent with what would tell", () => {
  for (const seed of [0, 3]) {
    const { picture, context } = ringsInDetailLadder.draw(0, seed);
    const { outline } = captureSheet({ turnDeg: 1, seed });
    expect(reasonOf(rings(picture, outline, context), "ringAreaPercent")).toContain("turned by 90°");
  }
});

test("up the ladder strong rings are found, and none where none are", () => {
  const { outline } = captureSheet({ turnDeg: 1 });
  const valueAt = (level: number) => {
    const { picture, context } = ringsLadder.draw(level, 84);
    return presentOf(rings(picture, outline, context), "ringAreaPercent").value;
  };
  expect(valueAt(0)).toBe(0);
  expect(valueAt(10)).toBeGreaterThan(5);
});

test("rings are absent without an outline and on one pixel", () => {
  const { picture, outline, context } = captureSheet({ ppi: 60 });
  expect(reasonOf(rings(picture, null, context), "ringAreaPercent")).toContain("not found");
  expect(reasonOf(rings(pictureOf(Uint8Array.of(1, 2, 3), 1, 1), outline, contextOf()), "ringAreaPercent")).not.toBe("");
});
