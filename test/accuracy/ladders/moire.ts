import { captureSheet } from "../../fixtures/captured-sheet.ts";
import { paperTexture } from "../../fixtures/defects/paper-texture.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;
const PRINT = { widthMm: 64, heightMm: 72, border: { left: 5, right: 5, top: 5, bottom: 9 } } as const;
/** Finer than two pixels of 0.127 mm: what is seen is its beat with them. */
const PERIOD_MM = 0.16;

export const moireLadder: Ladder = {
  defect: "moiré of textured paper",
  reads: [{ measure: "moirePercent", truth: (level) => level }],
  levels: [0, 2, 5, 10],
  levelUnit: "% of the light",
  draw: (level, seed) =>
    captureSheet({
      seed,
      ppi: 200,
      noise: 0.5,
      print: { ...PRINT, content: CONTENTS[seed % CONTENTS.length] ?? "scene" },
      defects: level === 0 ? [] : [paperTexture(PERIOD_MM, level / 100)],
    }),
};
