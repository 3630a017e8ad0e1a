import { describe, expect, test } from "vitest";
import { lightnessOf } from "#domain/measure/colour/lab.ts";
import { loopsInFrame } from "#domain/measure/marked-area.ts";
import { streaks } from "#domain/measure/surface/streaks.ts";
import { climb, readValue } from "../../../accuracy/ladder.ts";
import { bandingLadder, onPaper, streaksLadder } from "../../../accuracy/ladders/streaks.ts";
import { captureSheet, SMALL } from "../../../fixtures/captured-sheet.ts";
import { paperTexture } from "../../../fixtures/defects/paper-texture.ts";
import { bandingOf, streaksOf } from "../../../fixtures/defects/streaks.ts";
import { contextOf, pictureOf } from "../../../fixtures/pictures.ts";
import { presentOf, reasonOf } from "../../../fixtures/readings.ts";

type Listed = { line: string; alongSheetMm: number; fromFrameEdgeMm: number; widthMm: number; deltaL: number; inPicture: string };
const PRINT = { ...SMALL, paper: [0.8, 0.8, 0.8] } as const;
const PX_PER_MM = 200 / 25.4;

const readOf = (options: Parameters<typeof captureSheet>[0]) => {
  const { picture, outline, context } = captureSheet({ turnDeg: 1, print: PRINT, ...options });
  return streaks(picture, outline, context);
};
const countOf = (options: Parameters<typeof captureSheet>[0]) => presentOf(readOf(options), "streakCount").value;
const listed = (options: Parameters<typeof captureSheet>[0]) =>
  presentOf(readOf(options), "streakCount").detail?.streaks as readonly Listed[];

describe("a streak drawn into a capture", () => {
  const drawn = [{ along: "columns", atPx: 250, widthPx: 4, gain: -0.04 }] as const;

  test("is found with its place, width, strength and direction, and goes on through a plain picture", () => {
    const [streak, ...others] = listed({ seed: 31, turnDeg: 0, print: { ...PRINT, content: "pale-wall" }, defects: [streaksOf(drawn)] });
    expect(others).toEqual([]);
    expect(streak).toMatchObject({ line: "down the frame", inPicture: "seen" });
    expect(streak?.fromFrameEdgeMm).toBeCloseTo(250.5 / PX_PER_MM, 1);
    // the sheet of 44 mm lies in the middle of its frame of 504 px
    expect(streak?.alongSheetMm).toBeCloseTo(22 + (250 - 504 / 2) / PX_PER_MM, 0);
    expect(streak?.widthMm).toBeGreaterThan(3.2 / PX_PER_MM);
    expect(streak?.widthMm).toBeLessThan(5 / PX_PER_MM);
    expect(streak?.deltaL).toBeLessThan(-0.9 * onPaper(-0.04));
    expect(streak?.deltaL).toBeGreaterThan(-1.1 * onPaper(-0.04));
  });

  test("is marked from edge to edge of the frame, at its place and as wide as it is", () => {
    const options = { seed: 31, turnDeg: 0, print: { ...PRINT, content: "pale-wall" }, defects: [streaksOf(drawn)] } as const;
    const { picture, outline } = captureSheet(options);
    const [loop, ...others] = loopsInFrame(presentOf(readOf(options), "streakCount").area ?? [], outline, picture);
    expect(others).toEqual([]);
    const [xs, ys] = [loop?.map(({ x }) => x) ?? [], loop?.map(({ y }) => y) ?? []];
    expect((Math.min(...xs) + Math.max(...xs)) / 2).toBeCloseTo(250, 0);
    expect(Math.max(...xs) - Math.min(...xs)).toBeGreaterThan(3);
    expect(Math.max(...xs) - Math.min(...xs)).toBeLessThan(5.1);
    expect([Math.min(...ys), Math.max(...ys)]).toEqual([-0.5, picture.heightPx - 0.5]);
  });

  test("across the frame is told from one down the frame", () => {
    expect(listed({ seed: 32, defects: [streaksOf([{ ...drawn[0], along: "rows" }])] })[0]?.line).toBe("across the frame");
  });

  test("of 3 mm is found as one", () => {
    const wide = listed({ seed: 33, defects: [streaksOf([{ along: "columns", atPx: 250, widthPx: 2.6 * PX_PER_MM, gain: 0.02 }])] });
    expect(wide).toHaveLength(1);
    expect(wide[0]?.widthMm).toBeGreaterThan(2);
    expect(wide[0]?.widthMm).toBeLessThan(3);
  });

  test("is the same share of the light on darker paper", () => {
    const dim = readOf({ seed: 34, print: { ...PRINT, paper: [0.4, 0.4, 0.4] }, defects: [streaksOf(drawn)] });
    const bright = readOf({ seed: 34, defects: [streaksOf(drawn)] });
    const shareOf = (readings: typeof dim, luminance: number) =>
      presentOf(readings, "streakDeltaL").value / (lightnessOf(luminance) - lightnessOf(0.96 * luminance));
    expect(presentOf(dim, "streakCount").value).toBe(1);
    expect(shareOf(dim, 0.4) / shareOf(bright, 0.8)).toBeCloseTo(1, 1);
  });

  test("in a print that lies straight is not told from a line of the print, and that is said", () => {
    expect(presentOf(readOf({ seed: 35, turnDeg: 0, defects: [streaksOf(drawn)] }), "streakCount")).toMatchObject({ reliability: "fair" });
    expect(presentOf(readOf({ seed: 35, turnDeg: 0, defects: [streaksOf(drawn)] }), "streakCount").note).toContain("straight");
    expect(presentOf(readOf({ seed: 35, turnDeg: 2, defects: [streaksOf(drawn)] }), "streakCount").reliability).toBe("firm");
  });
});

describe("what is no streak", () => {
  test.each([
    ["a detailed picture", {}],
    ["wood grain", { background: "wood-grain" }],
    ["a patterned table", { background: "patterned-table" }],
    ["uneven light", { light: { fallOff: 0.3, across: 0.3 } }],
    ["a noisy capture", { noise: 1.5 }],
    ["embossed paper", { defects: [paperTexture(0.7, 0.03)] }],
    ["embossed paper that lies straight", { turnDeg: 0, defects: [paperTexture(1.1, 0.02)] }],
    ["a night picture", { print: { ...PRINT, content: "night" } }],
  ] as const)("%s reads none, and no banding", (_, options) => {
    const readings = readOf({ seed: 41, ppi: 150, ...options });
    expect(presentOf(readings, "streakCount").value).toBe(0);
    expect(presentOf(readings, "streakDeltaL").value).toBe(0);
    expect(presentOf(readings, "bandingDeltaL").value).toBe(0);
  });

  test("a line on one border only", () => {
    const line = streaksOf([{ along: "columns", atPx: 250, widthPx: 3, gain: -0.1 }]);
    const upperHalf: typeof line = (frame) => {
      const kept = frame.rgb.slice(((frame.rgb.length / 6) | 0) * 3);
      line(frame);
      frame.rgb.set(kept, ((frame.rgb.length / 6) | 0) * 3);
    };
    expect(countOf({ seed: 43, defects: [upperHalf] })).toBe(0);
  });

  test("a line through both borders that the plain picture between them does not show", () => {
    const line = streaksOf([{ along: "columns", atPx: 250, widthPx: 3, gain: -0.05 }]);
    const bordersOnly: typeof line = (frame) => {
      const kept = frame.rgb.slice();
      line(frame);
      const { topLeft, bottomLeft } = frame.prints[0]?.image ?? { topLeft: { y: 0 }, bottomLeft: { y: 0 } };
      const [from, to] = [Math.round(topLeft.y) * frame.widthPx * 3, Math.round(bottomLeft.y) * frame.widthPx * 3];
      frame.rgb.set(kept.subarray(from, to), from);
    };
    expect(countOf({ seed: 44, print: { ...PRINT, content: "pale-wall" }, defects: [bordersOnly] })).toBe(0);
  });
});

test("banding is read with its period and direction, and does not count as streaks", () => {
  const readings = readOf({ seed: 45, defects: [bandingOf("rows", 2.4 * PX_PER_MM, 0.02)] });
  const banding = presentOf(readings, "bandingDeltaL");
  const [band] = (banding.detail?.bands ?? []) as { lines: string; periodMm: number }[];
  expect(band?.lines).toBe("across the frame");
  expect(band?.periodMm).toBeGreaterThan(2.38);
  expect(band?.periodMm).toBeLessThan(2.42);
  expect(presentOf(readings, "streakCount").value).toBe(0);
});

test("up the ladders the readings follow what was drawn, and the strongest streak is within a tenth", () => {
  for (const { level, measured } of climb(streaksLadder, [51], [2])) {
    expect(readValue(measured, "streakCount")).toBe(3);
    expect(Math.abs(readValue(measured, "streakDeltaL") - onPaper(-level / 100))).toBeLessThanOrEqual(0.1 * onPaper(-level / 100));
  }
  for (const { level, measured } of climb(bandingLadder, [53], [4])) {
    expect(Math.abs(readValue(measured, "bandingDeltaL") - onPaper(level / 100))).toBeLessThan(0.05 + 0.05 * level);
    expect(readValue(measured, "streakCount")).toBe(0);
  }
});

describe("streaks are absent, with what would tell", () => {
  test("without an outline, on a print without border, and on one pixel", () => {
    const { picture, outline, context } = captureSheet({ print: { ...SMALL, border: { left: 0, top: 0, right: 0, bottom: 0 } } });
    expect(reasonOf(streaks(picture, null, context), "streakCount")).toContain("not found");
    expect(reasonOf(streaks(picture, { ...outline, image: null }, context), "streakDeltaL")).toContain("turned by 90°");
    expect(reasonOf(streaks(picture, outline, context), "bandingDeltaL")).toContain("turned by 90°");
    expect(reasonOf(streaks(pictureOf(Uint8Array.of(1, 2, 3), 1, 1), outline, contextOf()), "streakCount")).not.toBe("");
  });

  test("on a border clipped to white", () => {
    expect(reasonOf(readOf({ cast: [2, 2, 2] }), "streakCount")).toContain("unclipped");
  });

  test("and where borders lie on two sides only, the count is a lower bound", () => {
    const reading = presentOf(readOf({ seed: 46, print: { ...PRINT, border: { left: 0, right: 0, top: 6, bottom: 9 } } }), "streakCount");
    expect(reading).toMatchObject({ value: 0, bound: "lower" });
    expect(reading.note).toContain("upper and lower");
  });
});
