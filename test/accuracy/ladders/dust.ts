import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { dustOf, lineOf } from "../../fixtures/defects/dust.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;
const contentOf = (seed: number) => CONTENTS[seed % CONTENTS.length] ?? "scene";
const PPI = 250;

export const dustLadder: Ladder = {
  defect: "dust of real outlines",
  reads: [{ measure: "dustPerCm2", truth: (level) => level }],
  levels: [0, 1, 3, 6, 12],
  levelUnit: "per cm²",
  draw: (level, seed) =>
    captureSheet({
      ppi: PPI,
      seed,
      print: { ...SMALL, content: contentOf(seed) },
      defects: [dustOf({ perCm2: level, pxPerMm: PPI / 25.4, depth: 0.35, seed })],
    }),
};

/** A bent hair on the lower border, 4 mm in from its left. */
export const hairLadder: Ladder = {
  defect: "a hair on the border",
  reads: [{ measure: "scratchLengthMm", truth: (level) => level }],
  levels: [0, 1, 2, 4, 8],
  levelUnit: "mm",
  draw: (level, seed) =>
    captureSheet({
      ppi: PPI,
      seed,
      turnDeg: 1,
      print: { ...SMALL, content: contentOf(seed) },
      defects: [
        lineOf({
          x: (18 * PPI) / 25.4,
          y: (57 * PPI) / 25.4,
          lengthPx: (level * PPI) / 25.4,
          widthPx: 1.5,
          headingDeg: 35 + (seed % 5),
          bendDeg: -30,
          depth: level === 0 ? 0 : 0.3,
        }),
      ],
    }),
};
