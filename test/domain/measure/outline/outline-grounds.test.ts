import { expect, test } from "vitest";
import { cornersOf } from "#domain/measure/lines.ts";
import { findOutlines } from "#domain/measure/outline/outline.ts";
import { drawOnGround } from "../../../accuracy/ladders/ground.ts";

/** Farthest corner from where it was drawn, px; null where nothing was found. */
function worstOf(drawn: ReturnType<typeof drawOnGround>) {
  const [outline] = findOutlines(drawn.picture, drawn.context);
  if (!outline) return null;
  const truth = cornersOf(drawn.truth.sheet);
  const awayPx = Math.max(...cornersOf(outline.sheet).map(({ x, y }, k) => Math.hypot(x - (truth[k]?.x ?? 0), y - (truth[k]?.y ?? 0))));
  return { awayPx, spreads: awayPx / outline.cornerSpreadPx, isFirm: Object.values(outline.sides).every((side) => side === "seen") };
}

test("a check of a cloth is never told as a print whose sides were all seen, with its size in the record or without", () => {
  const drawn = drawOnGround("checked", 50, 8001);
  for (const context of [drawn.context, { ...drawn.context, sheetWidthMm: null, sheetHeightMm: null }]) {
    const found = worstOf({ ...drawn, context });
    expect(found?.isFirm ? found.spreads : 0).toBeLessThan(3);
  }
});

test("a side found on a line of a check that runs on beyond both its corners is doubted, and its spread holds the true one", () => {
  for (const seed of [702, 706]) {
    const found = worstOf(drawOnGround("checked", 6, seed));
    expect(found).toMatchObject({ isFirm: false });
    expect(found?.spreads).toBeLessThan(3);
  }
});

test("a print on checks much darker than its paper is found, all its sides seen", () => {
  for (const seed of [2000]) expect(worstOf(drawOnGround("checked", 50, seed))).toMatchObject({ isFirm: true });
});

test("a side that grain of wood runs along is doubted where it steps no more than the grain does, and seen where it steps more", () => {
  for (const [contrast, seed] of [
    [12, 8002],
    [6, 8003],
  ] as const) {
    const found = worstOf(drawOnGround("wood grain", contrast, seed));
    expect(found).toMatchObject({ isFirm: false });
    expect(found?.spreads).toBeLessThan(3);
  }
  expect(worstOf(drawOnGround("wood grain", 50, 8003))).toMatchObject({ isFirm: true });
});
