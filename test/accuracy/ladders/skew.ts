import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;

export const skewLadder: Ladder = {
  defect: "print turned in the frame",
  reads: [{ measure: "skewDegrees", truth: (level) => level }],
  levels: [0, 0.5, 1, 3, 8],
  levelUnit: "degrees",
  draw: (level, seed) => captureSheet({ turnDeg: level, seed, print: { ...SMALL, content: CONTENTS[seed % CONTENTS.length] ?? "scene" } }),
};
