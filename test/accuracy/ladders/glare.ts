import { lightnessOf } from "#domain/measure/colour/lab.ts";
import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { coverOf, type Reflection, reflected } from "../../fixtures/defects/reflections.ts";
import { veil } from "../../fixtures/defects/veil.ts";
import { lightOfLightness } from "../../fixtures/light-of-lightness.ts";
import type { Defect } from "../../fixtures/pictures.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;
const SHEET_MM2 = SMALL.widthMm * SMALL.heightMm;
const PAPER_Y = 0.79;

const drawn = (seed: number, defect: Defect, options: Parameters<typeof captureSheet>[0] = {}) =>
  captureSheet({ seed, defects: [defect], ...options, print: { ...SMALL, content: CONTENTS[seed % CONTENTS.length] ?? "scene" } });

/** The largest lightness that a defect adds to any pixel, up to white; of the light, before any noise. */
function mostAdded(seed: number, defect: Defect): number {
  let most = 0;
  const watched: Defect = (frame) => {
    const before = frame.rgb.slice();
    defect(frame);
    for (let at = 0; at < before.length; at += 3)
      if (frame.rgb[at] !== before[at]) most = Math.max(most, lightnessAt(frame.rgb, at) - lightnessAt(before, at));
  };
  drawn(seed, watched, { noise: 0 });
  return most;
}

/** Of a pixel of sRGB (IEC 61966-2-1). */
const lightnessAt = (rgb: Float32Array, at: number) =>
  lightnessOf([0.2126, 0.7152, 0.0722].reduce((sum, weight, channel) => sum + weight * Math.min(1, rgb[at + channel] as number), 0));

const shine = (defect: string, reflectionOf: (areaMm2: number) => Reflection): Ladder => {
  const reflectionAt = (level: number) => reflected(level === 0 ? [] : [reflectionOf((level / 100) * SHEET_MM2)]);
  return {
    defect,
    reads: [
      { measure: "glareAreaPercent", truth: (level) => level },
      { measure: "glarePeakDeltaL", truth: (level, seed) => mostAdded(seed, reflectionAt(level)) },
    ],
    levels: [0, 1, 4, 10],
    levelUnit: "% of the print",
    draw: (level, seed) => drawn(seed, reflectionAt(level)),
  };
};

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
const windowOverBorder = (areaMm2: number) => windowOf(areaMm2, 22, 5, 0.4);
const overBorder = shine("window mirrored by border and picture", windowOverBorder);
export const windowOverBorderLadder: Ladder = {
  ...overBorder,
  reads: [
    ...overBorder.reads,
    { measure: "borderGlarePercent", truth: (level) => borderShareOf(windowOverBorder((level / 100) * SHEET_MM2)) },
  ],
};

/** Of the whole border, up to its edges, how much lies under a reflection, percent; counted in squares of 0.1 mm. */
function borderShareOf(reflection: Reflection): number {
  const { widthMm, heightMm, border } = SMALL;
  let [all, under] = [0, 0];
  for (let y = 0.05; y < heightMm; y += 0.1) {
    for (let x = 0.05; x < widthMm; x += 0.1) {
      const isPicture = x > border.left && x < widthMm - border.right && y > border.top && y < heightMm - border.bottom;
      if (isPicture) continue;
      all++;
      if (coverOf(reflection, x, y) > 0.5) under++;
    }
  }
  return (100 * under) / all;
}

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

/** Paper lit so dimly that shine upon it stays below white; the picture gets as little, so that nothing of it is brighter than its paper. */
const DIM_PAPER_LIGHTNESS = 82;
const DIM_PAPER = lightOfLightness(DIM_PAPER_LIGHTNESS);
const DIMMING = DIM_PAPER / PAPER_Y;

/** A lamp wholly on the plain border at the print's foot: what it adds there is known, and nothing shines in the picture. */
export const lampOnBorderLadder: Ladder = {
  defect: "lamp mirrored by the border alone",
  reads: [{ measure: "glarePeakDeltaL", truth: (level) => level }],
  levels: [0, 1, 2, 4, 8, 15],
  levelUnit: "L* added to the paper",
  draw: (level, seed) => {
    const peak = lightOfLightness(DIM_PAPER_LIGHTNESS + level) - DIM_PAPER;
    return captureSheet({
      seed,
      defects: [reflected([{ shape: "lamp", xMm: 14 + 2 * (seed % 4), yMm: 47.5, widthMm: 5, heightMm: 5, rimMm: 0.4, peak }])],
      cast: [DIMMING, DIMMING, DIMMING],
      print: { ...SMALL, paper: [PAPER_Y, PAPER_Y, PAPER_Y], content: CONTENTS[seed % CONTENTS.length] ?? "scene" },
    });
  },
};

/** The print's own black is read with the veil: at most. */
export const veilLadder: Ladder = {
  defect: "veil of stray light",
  reads: [{ measure: "hazePercent", truth: (level) => level }],
  levels: [0, 1, 3, 10],
  levelUnit: "% of white",
  draw: (level, seed) => drawn(seed, veil((PAPER_Y * level) / (100 - level))),
};
