import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { ringsOf } from "../../fixtures/defects/interference.ts";
import type { Ladder } from "../ladder.ts";

/** Rings over a plain picture: how much of them is seen has no true figure, whether any are has. */
export const ringsLadder: Ladder = {
  defect: "interference rings, plain picture",
  reads: [{ measure: "ringAreaPercent", truth: (level) => (level === 0 ? 0 : Number.NaN) }],
  levels: [0, 1, 2, 5, 10],
  levelUnit: "% of the light",
  draw: (level, seed) => ringed(level, seed, "pale-wall"),
};

/** The same over many tones, colours and edges. */
export const ringsInDetailLadder: Ladder = {
  ...ringsLadder,
  defect: "interference rings, detailed picture",
  draw: (level, seed) => ringed(level, seed, "scene"),
};

const ringed = (level: number, seed: number, content: "pale-wall" | "scene") =>
  captureSheet({
    seed,
    turnDeg: 1,
    print: { ...SMALL, content },
    defects: [ringsOf({ xMm: 20 + (seed % 5), yMm: 22, radiusMm: 40_000 + 5_000 * (seed % 3), amplitude: level / 100, fadeMm: 9 })],
  });
