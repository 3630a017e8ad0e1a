import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { edited } from "../../fixtures/edits.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "scene"] as const;

/** Contrast raised about the middle grey in 8 bits: of g levels one stays, so 1 - 1/g of them go missing. */
export const combLadder: Ladder = {
  defect: "contrast raised in 8 bits after the capture",
  reads: [{ measure: "missingLevelsPercent", truth: (level) => 100 * (1 - 1 / level) }],
  levels: [1, 1.05, 1.1, 1.25, 1.5],
  levelUnit: "times the contrast",
  draw: (level, seed) => {
    const drawn = captureSheet({
      seed,
      ppi: 250,
      known: { fileKind: "png" },
      print: { ...SMALL, content: CONTENTS[seed % CONTENTS.length] ?? "scene" },
    });
    return { ...drawn, picture: edited(drawn.picture, (code) => 128 + level * (code - 128)) };
  },
};
