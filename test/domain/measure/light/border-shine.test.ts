import { expect, test } from "vitest";
import { project } from "#domain/measure/homography.ts";
import { borderGlare } from "#domain/measure/light/border-glare.ts";
import { borderShine } from "#domain/measure/light/border-shine.ts";
import { glareAlone } from "#domain/measure/light/glare-alone.ts";
import type { Outline } from "#domain/measure/reading.ts";
import { captureSheet, SMALL } from "../../../fixtures/captured-sheet.ts";
import { coverOf, type Reflection, reflected } from "../../../fixtures/defects/reflections.ts";
import type { Defect } from "../../../fixtures/pictures.ts";
import { presentOf, reasonOf } from "../../../fixtures/readings.ts";

// common practice, no source: shares are counted from what was drawn

type Drawn = { readonly defects: readonly Defect[]; readonly content?: "scene" | "night" | "pale-wall"; readonly light?: object };

const draw = ({ defects, content = "scene", light = {} }: Drawn, seed: number) =>
  captureSheet({ defects: [...defects], seed, light, print: { ...SMALL, content } });

const window = (xMm: number, yMm: number, widthMm: number, heightMm: number, turnDeg: number, peak: number): Reflection => ({
  shape: "window",
  xMm,
  yMm,
  widthMm,
  heightMm,
  turnDeg,
  peak,
});

/** Share of the border, as far as it is read, to which a reflection adds 3 % of the paper's light or more; paper of luminance 0.79. */
function coveredPercent(
  { picture, outline, context }: Pick<ReturnType<typeof draw>, "picture" | "outline" | "context">,
  reflection: Reflection,
) {
  const shine = borderShine(picture, outline, context);
  if (typeof shine === "string") throw new Error(shine);
  const { u, v, cell } = shine.patches;
  const lit = [...cell.keys()].filter((index) => {
    const [x, y] = [((u[index] as number) + 1) * (SMALL.widthMm / 2), ((v[index] as number) + 1) * (SMALL.heightMm / 2)];
    return reflection.peak * coverOf(reflection, x, y) > 0.03 * 0.79;
  });
  return (100 * lit.length) / cell.length;
}

test.each([
  { over: "most of one side", reflection: window(20, 3, 34, 12, 2, 0.06), content: "night", light: {} },
  {
    over: "most of one side, brighter",
    reflection: window(2, 25, 12, 40, -3, 0.16),
    content: "night",
    light: { fallOff: 0.1, across: 0.06 },
  },
  { over: "a corner and both its sides", reflection: window(10, 10, 30, 40, 15, 0.1), content: "night", light: {} },
  {
    over: "the broad foot and both sides beside it",
    reflection: window(22, 45, 60, 16, 0, 0.1),
    content: "scene",
    light: { fallOff: 0.1 },
  },
  { over: "both sides across the print", reflection: window(22, 26, 60, 20, 4, 0.06), content: "scene", light: { across: 0.06 } },
] as const)("a window over $over is read as the share of the border that it covers", ({ reflection, content, light }) => {
  const sheet = draw({ defects: [reflected([reflection])], content, light }, 171);
  const read = presentOf(borderGlare(sheet.picture, sheet.outline, sheet.context), "borderGlarePercent");
  expect(Math.abs(read.value - coveredPercent(sheet, reflection))).toBeLessThan(1);
});

/** Light that something keeps from all that lies left of a place across the sheet, black as well as white. */
const shadow =
  (toMm: number, share: number): Defect =>
  ({ widthPx, rgb, prints }) => {
    for (let at = 0; at < rgb.length; at++) {
      const pixel = Math.floor(at / 3);
      const place = prints[0] && project(prints[0].toMm, pixel % widthPx, Math.floor(pixel / widthPx));
      if (place && place.x < toMm) rgb[at] = (rgb[at] as number) * (1 - share);
    }
  };

test("a shadow over most of the border does not make the rest of it shine", () => {
  for (const content of ["night", "scene"] as const) {
    const { picture, outline, context } = draw({ defects: [shadow(34, 0.15)], content }, 172);
    expect(presentOf(borderGlare(picture, outline, context), "borderGlarePercent").value).toBe(0);
  }
});

test("beside a picture without darks shine and shadow are not told apart, and the reading says so", () => {
  for (const defects of [[reflected([window(2, 25, 12, 40, -3, 0.16)])], [shadow(30, 0.15)]]) {
    const { picture, outline, context } = draw({ defects, content: "pale-wall" }, 173);
    expect(reasonOf(borderGlare(picture, outline, context), "borderGlarePercent")).toMatch(/lies in shadow.*another capture/);
  }
});

/** The outline where the left end of the picture was taken to lie almost at the edge of the sheet, as where a window hides it. */
function withHiddenLeft(outline: Outline): Outline {
  const { sheet, image } = outline;
  if (!image) throw new Error("the fixture has a border");
  const nearly = (corner: "topLeft" | "bottomLeft") => ({ x: sheet[corner].x + 2, y: image[corner].y });
  return { ...outline, image: { ...image, topLeft: nearly("topLeft"), bottomLeft: nearly("bottomLeft") } };
}

/** The picture goes to the edge of the sheet at the left. */
const TO_THE_EDGE = { ...SMALL, border: { ...SMALL.border, left: 0.3 } };

test("along a side without a border a picture that is brighter than a dark border does not shine", () => {
  const print = { ...TO_THE_EDGE, content: "pale-wall", paper: [0.05, 0.05, 0.05] } as const;
  const { picture, outline, context } = captureSheet({ seed: 175, print });
  expect(presentOf(borderGlare(picture, outline, context), "borderGlarePercent").value).toBe(0);
});

test("a window that hides where the picture ends is read all the same, by what is brighter there than paper", () => {
  const reflection = window(2, 25, 14, 30, 3, 0.16);
  for (const content of ["night", "pale-wall"] as const) {
    const lit = draw({ defects: [reflected([reflection])], content }, 174);
    const asSeen = { ...lit, outline: withHiddenLeft(lit.outline) };
    const read = presentOf(borderGlare(asSeen.picture, asSeen.outline, asSeen.context), "borderGlarePercent");
    expect(read).toMatchObject({ reliability: "fair", note: expect.stringContaining("along another") });
    expect(read.value).toBeGreaterThan(5);
    expect(Math.abs(read.value - coveredPercent(asSeen, reflection))).toBeLessThan(1);
    const plain = draw({ defects: [], content }, 174);
    expect(presentOf(borderGlare(plain.picture, withHiddenLeft(plain.outline), plain.context), "borderGlarePercent").value).toBe(0);
  }
});

test("what shines along a side without a border counts once of the print, however it is seen", () => {
  const reflection = window(2, 25, 14, 30, 3, 0.4);
  const print = { ...TO_THE_EDGE, content: "pale-wall" } as const;
  const { picture, outline, context } = captureSheet({ seed: 176, defects: [reflected([reflection])], print });
  const places = Array.from({ length: 200 * 200 }, (_, at) => [((at % 200) + 0.5) / 200, (Math.floor(at / 200) + 0.5) / 200] as const);
  const lit = places.filter(([x, y]) => coverOf(reflection, x * SMALL.widthMm, y * SMALL.heightMm) > 0);
  const read = presentOf(glareAlone(picture, outline, context), "glareAreaPercent");
  expect(read.bound).toBe("lower");
  expect(read.value).toBeLessThanOrEqual((100 * lit.length) / places.length);
});

test("a window that hides where the picture ends is read too where the capture is exposed for it, so that paper is dim", () => {
  const print = { ...SMALL, content: "night", paper: [0.48, 0.48, 0.46] } as const;
  const read = (defects: Defect[]) => {
    const { picture, outline, context } = captureSheet({ seed: 177, defects, print });
    return presentOf(borderGlare(picture, withHiddenLeft(outline), context), "borderGlarePercent").value;
  };
  expect(read([reflected([window(2, 25, 14, 30, 3, 0.3)])])).toBeGreaterThan(5);
  expect(read([])).toBe(0);
});
