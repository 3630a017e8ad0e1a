import type { MeasureName } from "#domain/measure/catalogue.ts";
import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { clippedDiscs } from "../../fixtures/defects/clipped-discs.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;

const discs = (defect: string, measure: MeasureName, light: number): Ladder => ({
  defect,
  reads: [{ measure, truth: (level) => level }],
  levels: [0, 0.5, 2, 8],
  levelUnit: "% of the picture",
  draw: (level, seed) =>
    captureSheet({
      seed,
      defects: [clippedDiscs(level / 100, SMALL, light)],
      print: { ...SMALL, content: CONTENTS[seed % CONTENTS.length] ?? "scene" },
    }),
});

export const clippingLadder = discs("discs of the picture burnt to white", "clippedHighlightsPercent", 3);
/** Dark pictures are among them, whose own blacks must not count. */
export const shadowsLadder = discs("discs of the picture sunk to black", "clippedShadowsPercent", 0);
