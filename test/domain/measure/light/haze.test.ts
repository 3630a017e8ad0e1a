import { expect, test } from "vitest";
import { haze } from "#domain/measure/light/haze.ts";
import { captureSheet, SMALL } from "../../../fixtures/captured-sheet.ts";
import { reflected } from "../../../fixtures/defects/reflections.ts";
import { veil } from "../../../fixtures/defects/veil.ts";
import { presentOf, reasonOf } from "../../../fixtures/readings.ts";

const PAPER_Y = 0.2126 * 0.8 + 0.7152 * 0.79 + 0.0722 * 0.75;
const NIGHT = { ...SMALL, content: "night" } as const;

const read = (options: Parameters<typeof captureSheet>[0]) => {
  const { picture, outline, context } = captureSheet({ print: NIGHT, ...options });
  return presentOf(haze(picture, outline, context), "hazePercent");
};

test.each([0.01, 0.04, 0.1])("a veil of %d of white adds its share, and the reading is at most", (added) => {
  const clear = read({ seed: 821 });
  const veiled = read({ seed: 821, defects: [veil(added)] });
  const black = (clear.value / 100) * PAPER_Y;
  expect(veiled.bound).toBe("upper");
  expect(veiled.value).toBeGreaterThan((100 * added) / (PAPER_Y + added));
  expect(Math.abs(veiled.value - (100 * (black + added)) / (PAPER_Y + added))).toBeLessThan(0.3);
});

test("exposure does not matter", () => {
  const [full, half] = [1, 0.5].map((gain) => read({ seed: 822, bits: 16, cast: [gain, gain, gain], defects: [veil(0.04 * gain)] }).value);
  expect(Math.abs((full as number) - (half as number))).toBeLessThan(0.2);
});

test("noise does not lower it below the veil", () => {
  expect(read({ seed: 823, noise: 3, defects: [veil(0.03)] }).value).toBeGreaterThan((100 * 0.03) / (PAPER_Y + 0.03));
});

test("glare brighter than paper does not make the veil look less", () => {
  const lamp = { shape: "lamp", xMm: 22, yMm: 24, widthMm: 10, heightMm: 10, peak: 1.5 } as const;
  expect(Math.abs(read({ seed: 824, defects: [reflected([lamp])] }).value - read({ seed: 824 }).value)).toBeLessThan(0.2);
});

test("a picture with nothing dark gives only a weak bound", () => {
  expect(read({ seed: 825, print: { ...SMALL, content: "pale-wall" } }).reliability).toBe("weak");
});

test("a picture paler all over than its border has no reading, and says what would tell", () => {
  const { picture, outline, context } = captureSheet({ seed: 826, print: { ...SMALL, content: "pale-wall", paper: [0.5, 0.5, 0.47] } });
  expect(reasonOf(haze(picture, outline, context), "hazePercent")).toContain("under other light would tell");
});

test("without a print there is nothing to read", () => {
  const { picture, context } = captureSheet({ ppi: 60 });
  expect(reasonOf(haze(picture, null, context), "hazePercent")).toContain("not found");
});
