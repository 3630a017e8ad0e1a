import { expect, test } from "vitest";
import { layOnSheet } from "#domain/comparison/lay-on-sheet.ts";
import { SMALL } from "../../fixtures/captured-sheet.ts";
import { drawCapture, placeErrorsMm, quantile, toLay } from "../../fixtures/laid-captures.ts";

const SHEET = { widthMm: SMALL.widthMm, heightMm: SMALL.heightMm };

test("one place of the sheet is one place of the print in every capture, on the border too, though each found corner is off", async () => {
  const captures = [
    drawCapture({ seed: 41, noiseSeed: 1, turnDeg: 2, ppi: 220 }),
    drawCapture({ seed: 41, noiseSeed: 2, turnDeg: -3, ppi: 180, keystoneAcross: 0.05 }),
    drawCapture({ seed: 41, noiseSeed: 3, turnDeg: 91, ppi: 200 }),
  ];
  const laid = await layOnSheet(
    captures.map((capture, index) => toLay(index + 1, capture)),
    SHEET,
    async (id) => captures[id - 1]?.picture ?? null,
  );
  expect(laid.captures.map(({ laidBy }) => laidBy).sort()).toEqual(["detail", "detail", "reference"]);
  for (const other of [2, 3]) {
    const errors = placeErrorsMm(laid, [1, captures[0] as never], [other, captures[other - 1] as never]);
    expect(quantile(errors, 0.5)).toBeLessThan(0.05);
    expect(quantile(errors, 0.95)).toBeLessThan(0.1);
  }
});

test("a coarse capture a quarter turned lies within a twentieth of a millimetre, a soft and noisy one within two tenths, the border included", async () => {
  const one = drawCapture({ seed: 913, noiseSeed: 1, turnDeg: 2, ppi: 240 });
  const others = [
    { other: drawCapture({ seed: 913, noiseSeed: 3, turnDeg: 90, ppi: 160 }), mostMm: 0.05 },
    { other: drawCapture({ seed: 913, noiseSeed: 2, turnDeg: 2, ppi: 120, blurPx: 1, noise: 1.5 }), mostMm: 0.2 },
  ];
  for (const { other, mostMm } of others) {
    const pictures = new Map([one, other].map(({ picture }, index) => [index + 1, picture]));
    const laid = await layOnSheet([toLay(1, one), toLay(2, other)], SHEET, async (id) => pictures.get(id) ?? null);
    expect(laid.captures.map(({ laidBy }) => laidBy).sort()).toEqual(["detail", "reference"]);
    expect(quantile(placeErrorsMm(laid, [1, one], [2, other]), 0.95)).toBeLessThan(mostMm);
  }
});

test("without its size a sheet is taken for 100 mm long, and what cannot be lined up is laid by its corners, with the reason", async () => {
  const one = drawCapture({ seed: 41, noiseSeed: 1 });
  const stranger = drawCapture({ seed: 77, noiseSeed: 2, print: { ...SMALL, content: "night" } });
  const laid = await layOnSheet([toLay(1, one), toLay(2, stranger)], null, async () => null);
  expect(laid.isSizeKnown).toBe(false);
  expect(Math.max(laid.sheetMm.widthMm, laid.sheetMm.heightMm)).toBeCloseTo(100, 6);
  const other = laid.captures.find(({ captureId }) => captureId !== laid.referenceId);
  expect(other?.laidBy).toBe("corners");
  expect(other?.why).toMatch(/could not be lined up|too little detail/);
  expect(other?.residualMm).toBeNull();
});
