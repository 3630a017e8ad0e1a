import { describe, expect, test } from "vitest";
import { median, quantile } from "#domain/measure/numbers/robust.ts";
import { findFringes } from "#domain/measure/surface/fringe-search.ts";
import { ringPlanes } from "#domain/measure/surface/ring-planes.ts";
import { rings } from "#domain/measure/surface/rings.ts";
import { ringsInDetailLadder, ringsLadder } from "../../../accuracy/ladders/rings.ts";
import { captureSheet, SMALL } from "../../../fixtures/captured-sheet.ts";
import { linesOf, ringsOf } from "../../../fixtures/defects/interference.ts";
import { paperTexture } from "../../../fixtures/defects/paper-texture.ts";
import { streaksOf } from "../../../fixtures/defects/streaks.ts";
import { contextOf, pictureOf } from "../../../fixtures/pictures.ts";
import { presentOf, reasonOf } from "../../../fixtures/readings.ts";

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

/** λR of rings in mm²: the period at r is λR / 2r (from r² = m λR), so that every place where fringes are found gives it once. */
function lambdaRadius({
  wavelengthNm,
  radiusMm,
  seed,
  xMm = RINGS.xMm,
}: {
  wavelengthNm: number;
  radiusMm: number;
  seed: number;
  xMm?: number;
}) {
  const drawn = { ...RINGS, xMm, radiusMm, amplitude: 0.1, fadeMm: 14, wavelengthsNm: [wavelengthNm, wavelengthNm, wavelengthNm] } as const;
  const { picture, outline, context } = captureSheet({ turnDeg: 1, ppi: 150, print: PLAIN, seed, defects: [ringsOf(drawn)] });
  const planes = ringPlanes(picture, outline, context);
  const fringes = planes && findFringes(planes.light, planes.pxPerMm);
  if (!planes || !fringes) throw new Error("no fringes were found");
  const cellMm = planes.light.width / planes.pxPerMm / fringes.width;
  const radii = [...fringes.mask.entries()].flatMap(([at, is]) =>
    is === 1
      ? [
          Math.hypot(
            ((at % fringes.width) + 0.5) * cellMm - fringes.centre.xMm,
            (Math.floor(at / fringes.width) + 0.5) * cellMm - fringes.centre.yMm,
          ),
        ]
      : [],
  );
  // a place farther out has the shorter period: the middle radius goes with the middle period, the 90th percentile with the 10th
  const [closest, middle] = fringes.periodsMm;
  return { drawn: wavelengthNm * 1e-6 * radiusMm, found: [2 * median(radii) * middle, 2 * quantile(radii, 0.9) * closest] };
}

test.each([
  { wavelengthNm: 589, radiusMm: 45_000, seed: 91 },
  { wavelengthNm: 546, radiusMm: 60_000, seed: 92, xMm: 17 },
  { wavelengthNm: 633, radiusMm: 30_000, seed: 93 },
])("the periods found give back λR of r² = m λR (Hecht, Optics, Newton's rings; from memory): $wavelengthNm nm, $radiusMm mm", (rings) => {
  const { drawn, found } = lambdaRadius(rings);
  // periods are found at six steps of 1.35 apiece
  for (const each of found) expect(Math.abs(Math.log(each / drawn))).toBeLessThan(Math.log(1.35));
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
