import { captureSheet } from "../../fixtures/captured-sheet.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;
/** Borders wide enough for a patch of 64 px at a sampling that is quick to draw. */
const PRINT = { widthMm: 44, heightMm: 52, border: { left: 12, right: 12, top: 12, bottom: 16 } } as const;

export const noiseLadder: Ladder = {
  defect: "noise of the sensor",
  reads: [{ measure: "noiseDeltaL", truth: (level) => level }],
  levels: [0.25, 0.5, 1, 2, 4],
  levelUnit: "L*",
  draw: (level, seed) => captureSheet({ seed, noise: level, print: { ...PRINT, content: CONTENTS[seed % CONTENTS.length] ?? "scene" } }),
};
