import { cornersOf } from "#domain/measure/lines.ts";
import type { Point } from "#domain/measure/picture.ts";
import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { lensBow, throughLens } from "../../fixtures/defects/lens-bow.ts";
import type { BackgroundKind } from "../../fixtures/picture-scenes.ts";
import type { Ladder } from "../ladder.ts";

const GROUNDS: readonly BackgroundKind[] = ["dark-cloth", "wood-grain", "grey-card"];
const PPI = 240;
const POSE = { ppi: PPI, turnDeg: 1.5, keystoneDown: 0.02, bedPxPerMm: PPI / 25.4 } as const;

/** A radial distortion that moves a place half a print's height from the middle by this many percent. */
const radialOf = (level: number) => level / 100 / ((SMALL.heightMm / 2 / 25.4) * PPI) ** 2;

export const barrelLadder: Ladder = {
  defect: "lens that bends straight lines: barrel above 0, pincushion below",
  reads: [{ measure: "barrelPercent", truth: drawnBarrel }],
  levels: [0, 0.2, -0.5, 1, -2, 2],
  levelUnit: "% at half the print's height",
  draw: (level, seed) =>
    captureSheet({
      ...POSE,
      seed,
      noise: 0.8,
      background: GROUNDS[seed % GROUNDS.length] ?? "dark-cloth",
      defects: level === 0 ? [] : [lensBow(radialOf(level))],
    }),
};

/** 100 (B - A) / B of the drawn sheet's longer sides, from where its corners and the middles of its sides are seen. */
export function drawnBarrel(level: number): number {
  const { sheet, size } = drawnSheet;
  const seen = (point: Point) => throughLens(point, radialOf(level), size);
  const [a, b, c, d] = cornersOf(sheet);
  const apart = (p: Point, q: Point) => Math.hypot(p.x - q.x, p.y - q.y);
  const half = (p: Point, q: Point) => ({ x: (p.x + q.x) / 2, y: (p.y + q.y) / 2 });
  const ends = (apart(seen(a), seen(b)) + apart(seen(c), seen(d))) / 2;
  const middle = apart(seen(half(a, d)), seen(half(b, c)));
  // Keystone alone makes the middle differ from the mean of the ends; what it does without the lens is taken away.
  const straightEnds = (apart(a, b) + apart(c, d)) / 2;
  const straightMiddle = apart(half(a, d), half(b, c));
  return (100 * (middle - ends)) / middle - (100 * (straightMiddle - straightEnds)) / straightMiddle;
}

const drawnSheet = (() => {
  const { truth, picture } = captureSheet({ ...POSE, noise: 0 });
  return { sheet: truth.sheet, size: { widthPx: picture.widthPx, heightPx: picture.heightPx } };
})();
