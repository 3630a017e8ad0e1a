import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { colourShift } from "../../fixtures/defects/colour-shift.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;

/** Red goes (0.8, 0.6) of it; the sides that stand upright, turned by so many degrees, see the larger part. */
const turnOf = (seed: number) => (seed % 5) + 0.5;
const acrossOf = (level: number, seed: number) => {
  const lean = (turnOf(seed) * Math.PI) / 180;
  return level * (0.8 * Math.cos(lean) + 0.6 * Math.sin(lean));
};

export const misregistrationLadder: Ladder = {
  defect: "red moved aslant from green",
  reads: [{ measure: "misregistrationPx", truth: acrossOf }],
  levels: [0, 0.1, 0.2, 0.5, 1],
  levelUnit: "px",
  draw: (level, seed) =>
    captureSheet({
      seed,
      turnDeg: turnOf(seed),
      defects: [colourShift({ x: 0.8 * level, y: 0.6 * level })],
      print: { ...SMALL, content: CONTENTS[seed % CONTENTS.length] ?? "scene" },
    }),
};
