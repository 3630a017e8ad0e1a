import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { type Reflection, reflected } from "../../fixtures/defects/reflections.ts";
import { veil } from "../../fixtures/defects/veil.ts";
import type { Defect } from "../../fixtures/pictures.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;
const SHEET_MM2 = SMALL.widthMm * SMALL.heightMm;
const PAPER_Y = 0.79;

const drawn = (seed: number, defect: Defect) =>
  captureSheet({ seed, defects: [defect], print: { ...SMALL, content: CONTENTS[seed % CONTENTS.length] ?? "scene" } });

const shine = (defect: string, reflectionOf: (areaMm2: number) => Reflection): Ladder => ({
  defect,
  reads: [
    { measure: "glareAreaPercent", truth: (level) => level },
    { measure: "glarePeakDeltaL", truth: () => Number.NaN },
  ],
  levels: [0, 1, 4, 10],
  levelUnit: "% of the print",
  draw: (level, seed) => drawn(seed, reflected(level === 0 ? [] : [reflectionOf((level / 100) * SHEET_MM2)])),
});

/** Twice as wide as high, turned a little, brighter than paper. */
const windowOf = (areaMm2: number, xMm: number, yMm: number, peak: number): Reflection => ({
  shape: "window",
  xMm,
  yMm,
  widthMm: Math.sqrt(2 * areaMm2),
  heightMm: Math.sqrt(areaMm2 / 2),
  turnDeg: 12,
  peak,
});

export const windowLadder = shine("window mirrored by the picture, brighter than paper", (area) => windowOf(area, 22, 24, 0.9));
export const windowOverBorderLadder = shine("window mirrored by border and picture", (area) => windowOf(area, 22, 5, 0.4));
export const lampLadder = shine("lamp mirrored by the picture, brighter than paper", (area) => ({
  shape: "lamp",
  xMm: 18,
  yMm: 26,
  widthMm: 2 * Math.sqrt(area / Math.PI),
  heightMm: 2 * Math.sqrt(area / Math.PI),
  rimMm: 0.5,
  peak: 1.2,
}));
/** Not told from a pale subject: the table shows it. */
export const faintWindowLadder = shine("window mirrored by the picture, darker than paper", (area) => windowOf(area, 22, 24, 0.25));

/** The print's own black is read with the veil: at most. */
export const veilLadder: Ladder = {
  defect: "veil of stray light",
  reads: [{ measure: "hazePercent", truth: (level) => level }],
  levels: [0, 1, 3, 10],
  levelUnit: "% of white",
  draw: (level, seed) => drawn(seed, veil((PAPER_Y * level) / (100 - level))),
};
