import { describe, expect, test } from "vitest";
import { loopsInFrame } from "#domain/measure/marked-area.ts";
import { dust } from "#domain/measure/surface/dust.ts";
import { climb, readValue } from "../../../accuracy/ladder.ts";
import { dustLadder } from "../../../accuracy/ladders/dust.ts";
import { captureSheet, SMALL } from "../../../fixtures/captured-sheet.ts";
import { dustOf, lineOf } from "../../../fixtures/defects/dust.ts";
import { paperTexture } from "../../../fixtures/defects/paper-texture.ts";
import { streaksOf } from "../../../fixtures/defects/streaks.ts";
import { contextOf, pictureOf } from "../../../fixtures/pictures.ts";
import { presentOf, reasonOf } from "../../../fixtures/readings.ts";

type Options = NonNullable<Parameters<typeof captureSheet>[0]>;
type Listed = { kind: string; lengthMm: number; xMm: number; yMm: number; isDark: boolean };

const PX_PER_MM = 200 / 25.4;
const readOf = (options: Options) => {
  const { picture, outline, context } = captureSheet({ turnDeg: 1, ...options });
  return dust(picture, outline, context);
};
const densityOf = (options: Options) => presentOf(readOf(options), "dustPerCm2").value;
const linesOf = (options: Options) => (presentOf(readOf(options), "scratchLengthMm").detail?.lines ?? []) as Listed[];
const LINE = { x: 18 * PX_PER_MM, y: 57 * PX_PER_MM, lengthPx: 5 * PX_PER_MM, widthPx: 1.4, headingDeg: 20, depth: 0.4 } as const;

test("dust of real outlines is counted per cm² within what chance allows, dark or light", () => {
  for (const depth of [0.35, -0.2]) {
    const options = {
      seed: 61,
      print: { ...SMALL, paper: [0.6, 0.6, 0.6] },
      defects: [dustOf({ perCm2: 8, pxPerMm: PX_PER_MM, depth, seed: 9 })],
    } as const;
    const reading = presentOf(readOf(options), "dustPerCm2");
    expect(Math.abs(reading.value - 8)).toBeLessThan(2 * Math.sqrt(8 / (reading.detail?.borderCm2 as number)));
    expect(reading.bound).toBe("lower");
    expect(((reading.detail?.largest ?? []) as Listed[])[0]?.isDark).toBe(depth > 0);
  }
});

describe("a thin line", () => {
  test("that bends is a hair, one that does not is a scratch; both by their length and place", () => {
    const [hair] = linesOf({ seed: 62, defects: [lineOf({ ...LINE, bendDeg: -70 })] });
    const [scratch] = linesOf({ seed: 62, defects: [lineOf({ ...LINE, bendDeg: 0 })] });
    expect(hair?.kind).toBe("hair");
    expect(scratch?.kind).toBe("scratch");
    for (const line of [hair, scratch]) {
      expect(line?.lengthMm).toBeGreaterThan(4.5);
      expect(line?.lengthMm).toBeLessThan(5.6);
      // the sheet starts 10 mm from the frame's edge
      expect(Math.abs((line?.xMm ?? 0) - 10.5)).toBeLessThan(1);
    }
  });

  test("is marked where it was drawn", () => {
    const options = { seed: 62, turnDeg: 1, defects: [lineOf({ ...LINE, bendDeg: 0 })] };
    const { picture, outline } = captureSheet(options);
    const loops = loopsInFrame(presentOf(readOf(options), "scratchLengthMm").area ?? [], outline, picture);
    const points = loops.flat();
    expect(points.length).toBeGreaterThan(3);
    const [along, across] = [Math.cos((20 * Math.PI) / 180), Math.sin((20 * Math.PI) / 180)];
    for (const { x, y } of points) {
      const [dx, dy] = [x - LINE.x, y - LINE.y];
      expect(Math.abs(dx * across - dy * along)).toBeLessThan(4);
      expect(Math.abs(dx * along + dy * across - LINE.lengthPx / 2)).toBeLessThan(LINE.lengthPx / 2 + 4);
    }
  });

  test("is no dust", () => {
    expect(densityOf({ seed: 63, defects: [lineOf({ ...LINE, bendDeg: 0 })] })).toBe(0);
  });
});

describe("what is neither dust nor scratch", () => {
  test.each([
    ["a detailed picture", {}],
    ["wood grain", { background: "wood-grain" }],
    ["a patterned table", { background: "patterned-table" }],
    ["noise of 1.5 L*", { noise: 1.5 }],
    ["uneven light", { light: { fallOff: 0.3, across: 0.3 } }],
    ["embossed paper", { defects: [paperTexture(0.7, 0.03)] }],
    ["a streak of the device", { defects: [streaksOf([{ along: "columns", atPx: 200, widthPx: 3, gain: -0.15 }])] }],
    ["glare on the border", { glare: [{ x: 120, y: 110, sigmaPx: 20, peak: 0.15 }] }],
  ] as const)("%s reads none", (_, options) => {
    const readings = readOf({ seed: 64, ...options } as Options);
    expect(presentOf(readings, "dustPerCm2").value).toBe(0);
    expect(presentOf(readings, "scratchLengthMm").value).toBe(0);
  });

  test("strokes that stand together, as writing does", () => {
    const strokes = Array.from({ length: 12 }, (_, index) =>
      lineOf({ ...LINE, x: (20 + index) * PX_PER_MM, lengthPx: 1.4 * PX_PER_MM, headingDeg: 60 + 50 * (index % 2), bendDeg: 40 }),
    );
    const readings = readOf({ seed: 65, defects: strokes });
    expect(presentOf(readings, "dustPerCm2").value).toBe(0);
    expect(presentOf(readings, "scratchLengthMm").value).toBe(0);
    expect(presentOf(readings, "dustPerCm2").detail?.largerMarks).toBeGreaterThan(5);
  });
});

test("up the ladder the density follows what was drawn", () => {
  const [few, many] = climb(dustLadder, [66], [1, 12]).map(({ measured }) => readValue(measured, "dustPerCm2"));
  expect(few).toBeGreaterThan(0);
  expect(many).toBeGreaterThan(9);
  expect(many).toBeLessThan(15);
});

test("dust is absent, with what would tell, without an outline, without a border and on one pixel", () => {
  const { picture, outline, context } = captureSheet({ ppi: 60 });
  expect(reasonOf(dust(picture, null, context), "dustPerCm2")).toContain("not found");
  expect(reasonOf(dust(picture, { ...outline, image: null }, context), "scratchLengthMm")).toContain("second capture");
  expect(reasonOf(dust(pictureOf(Uint8Array.of(1, 2, 3), 1, 1), outline, contextOf()), "dustPerCm2")).not.toBe("");
});
