import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { sideLight } from "../../fixtures/defects/side-light.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;
/** The border is read to within 0.8 mm of the sheet's edge. */
const GUARD_MM = 0.8;

export const evennessLadder: Ladder = {
  defect: "light that falls off to one side",
  reads: [{ measure: "evennessPercent", truth: (level) => level }],
  levels: [0, 2, 5, 10, 20, 40],
  levelUnit: "% lost across the border",
  draw: (level, seed) =>
    captureSheet({
      seed,
      defects: [sideLight(level / 100, SMALL.widthMm, GUARD_MM)],
      print: { ...SMALL, content: CONTENTS[seed % CONTENTS.length] ?? "scene" },
    }),
};
