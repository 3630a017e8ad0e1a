import { lightnessOf } from "#domain/measure/colour/lab.ts";
import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { sideLight, sideLightAt } from "../../fixtures/defects/side-light.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;
/** The border is read to within 0.8 mm of the sheet's edge. */
const GUARD_MM = 0.8;

/** Luminance of the drawn paper: 0.2126, 0.7152 and 0.0722 of its red, green and blue (IEC 61966-2-1). */
const PAPER_Y = 0.2126 * 0.8 + 0.7152 * 0.79 + 0.0722 * 0.75;

/**
 * Standard deviation of L* over its mean, percent, at even distances all along the middle of the border (36 CFR 1236.50, table 2, says the
 * figure and not the places).
 */
function lightnessSpreadOf(share: number): number {
  const { widthMm, heightMm, border } = SMALL;
  const across = Array.from({ length: widthMm * 10 }, (_, step) => (step + 0.5) / 10);
  const down = (xMm: number) => new Array<number>(heightMm * 10).fill(xMm);
  const places = [...across, ...across, ...down(border.left / 2), ...down(widthMm - border.right / 2)];
  const lightness = places.map((xMm) => lightnessOf(PAPER_Y * sideLightAt(xMm, share, widthMm, GUARD_MM)));
  const mean = lightness.reduce((sum, value) => sum + value, 0) / lightness.length;
  return (100 * Math.sqrt(lightness.reduce((sum, value) => sum + (value - mean) ** 2, 0) / lightness.length)) / mean;
}

export const evennessLadder: Ladder = {
  defect: "light that falls off to one side",
  reads: [
    { measure: "evennessPercent", truth: (level) => level },
    { measure: "borderLightnessSpreadPercent", truth: (level) => lightnessSpreadOf(level / 100) },
  ],
  levels: [0, 2, 5, 10, 20, 40],
  levelUnit: "% lost across the border",
  draw: (level, seed) =>
    captureSheet({
      seed,
      defects: [sideLight(level / 100, SMALL.widthMm, GUARD_MM)],
      print: { ...SMALL, content: CONTENTS[seed % CONTENTS.length] ?? "scene" },
    }),
};
