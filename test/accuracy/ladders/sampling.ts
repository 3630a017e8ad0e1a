import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;
const PPI = 200;

/** Turned and tilted a little otherwise by each seed; the sampling is that at the middle of the sheet. */
const poseOfSeed = (seed: number) => ({
  turnDeg: ((seed * 7) % 11) - 5,
  keystoneDown: (((seed * 5) % 7) - 3) / 100,
  print: { ...SMALL, content: CONTENTS[seed % CONTENTS.length] ?? "scene" },
});

export const samplingLadder: Ladder = {
  defect: "captured with few pixels or with many",
  reads: [{ measure: "samplingPpi", truth: (level) => level }],
  levels: [75, 100, 150, 200, 300, 600],
  levelUnit: "ppi",
  draw: (level, seed) => captureSheet({ ...poseOfSeed(seed), ppi: level, bedPxPerMm: level / 25.4, seed }),
};

/** By odd seeds the file claims fewer pixels per inch than there are, by even ones more; the reading has no sign. */
export const scaleLadder: Ladder = {
  defect: "file that claims another sampling than it has",
  reads: [{ measure: "scaleErrorPercent", truth: (level) => level }],
  levels: [0, 0.5, 1, 2, 5, 20],
  levelUnit: "% of what it claims",
  draw: (level, seed) => {
    const claimed = PPI / (1 + (seed % 2 === 0 ? -level : level) / 100);
    return captureSheet({ ...poseOfSeed(seed), ppi: PPI, seed, known: { claimedPpiX: claimed, claimedPpiY: claimed } });
  },
};
