import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { colourShift } from "../../fixtures/defects/colour-shift.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;

export const misregistrationLadder: Ladder = {
  defect: "red moved aslant from green",
  reads: [{ measure: "misregistrationPx", truth: (level) => level }],
  levels: [0, 0.1, 0.2, 0.5, 1],
  levelUnit: "px",
  draw: (level, seed) =>
    captureSheet({
      seed,
      turnDeg: (seed % 5) + 0.5,
      defects: [colourShift({ x: 0.8 * level, y: 0.6 * level })],
      print: { ...SMALL, content: CONTENTS[seed % CONTENTS.length] ?? "scene" },
    }),
};
