import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { clippedDiscs } from "../../fixtures/defects/clipped-discs.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;

export const clippingLadder: Ladder = {
  defect: "discs of the picture burnt to white",
  reads: [{ measure: "clippedHighlightsPercent", truth: (level) => level }],
  levels: [0, 0.5, 2, 8],
  levelUnit: "% of the picture",
  draw: (level, seed) =>
    captureSheet({
      seed,
      defects: [clippedDiscs(level / 100, SMALL)],
      print: { ...SMALL, content: CONTENTS[seed % CONTENTS.length] ?? "scene" },
    }),
};
