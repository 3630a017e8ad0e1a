import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import type { Ladder } from "../ladder.ts";

const GROUNDS = ["dark-cloth", "wood-grain", "patterned-table"] as const;

export const keystoneLadder: Ladder = {
  defect: "camera tilted: the foot of the print looks longer",
  reads: [
    { measure: "keystonePercent", truth: (level) => level },
    { measure: "keystoneMm", truth: (level) => (level / 100) * SMALL.widthMm },
  ],
  levels: [0, 0.3, 1, 3, 10],
  levelUnit: "%",
  draw: (level, seed) =>
    captureSheet({
      turnDeg: 2,
      bedPxPerMm: 8,
      keystoneDown: level / 100,
      seed,
      noise: 0.8,
      background: GROUNDS[seed % GROUNDS.length] ?? "dark-cloth",
    }),
};
