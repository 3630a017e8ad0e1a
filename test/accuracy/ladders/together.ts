import type { MeasureName } from "#domain/measure/catalogue.ts";
import type { CapturedSheet } from "../../fixtures/captured-sheet.ts";
import { type SheetOptions, sheetsOf } from "../../fixtures/compared-sheets.ts";
import { dustOf, lineOf } from "../../fixtures/defects/dust.ts";
import { ringsOf } from "../../fixtures/defects/interference.ts";
import { type Reflection, reflected } from "../../fixtures/defects/reflections.ts";
import { sideLight } from "../../fixtures/defects/side-light.ts";
import { veil } from "../../fixtures/defects/veil.ts";
import { drawFinePrint, type FineCapture } from "../../fixtures/fine-captures.ts";
import { captureOnPaper, lostOver, onPaper } from "../../fixtures/fine-sheets.ts";
import { mostLightnessAdded } from "../../fixtures/most-lightness-added.ts";

/** A defect in the first of several captures of one print; the others must stay quiet. */
export type TogetherLadder = {
  readonly defect: string;
  readonly measure: MeasureName;
  /** of a seed's content where it hangs on that */
  readonly truth: (level: number, seed: number) => number;
  readonly levels: readonly number[];
  readonly levelUnit: string;
  readonly draw: (level: number, seed: number, count: number) => CapturedSheet[];
};

const CONTENTS = ["scene", "pale-wall", "night"] as const;
const BORDER_MM = 5;
const PRINT = { widthMm: 50, heightMm: 58, border: { left: BORDER_MM, right: BORDER_MM, top: 5, bottom: 9 } };
const printOf = (seed: number) => ({ ...PRINT, content: CONTENTS[seed % CONTENTS.length] ?? "scene" });

const light: TogetherLadder = {
  defect: "light of one capture falls off to one side",
  measure: "evennessPercent",
  truth: (level) => level,
  levels: [0, 10, 30],
  levelUnit: "% lost across the picture",
  draw: (level, seed, count) =>
    sheetsOf(count, seed, { print: printOf(seed) }, { defects: [sideLight(level / 100, PRINT.widthMm, BORDER_MM)] }),
};

/** Of the file's white: paper is drawn at 0.79 of it. */
const haze: TogetherLadder = {
  defect: "veil over one capture",
  measure: "hazePercent",
  truth: (level) => level,
  levels: [0, 2, 5, 10],
  levelUnit: "% of the file's white",
  draw: (level, seed, count) => sheetsOf(count, seed, { print: printOf(seed) }, { defects: [veil(level / 100)] }),
};

/** A window over a share of the picture; of other proportions and at another angle for each seed. */
const windowOf = (level: number, seed: number): Reflection => {
  const areaMm2 = (level / 100) * (PRINT.widthMm - 2 * BORDER_MM) * (PRINT.heightMm - 14);
  const proportion = 0.8 + 0.2 * (seed % 3);
  return {
    shape: "window",
    xMm: 25,
    yMm: 27,
    widthMm: Math.sqrt(areaMm2 * proportion),
    heightMm: Math.sqrt(areaMm2 / proportion),
    turnDeg: 7 * (seed % 4),
    peak: 0.12,
    rimMm: 0.5,
  };
};

/** As far as its rim, of 0.5 mm, adds 1 % of white to a window of 12 %: 1.38 standard deviations (normal distribution, P = 1/12). */
const RIM_REACH_MM = 1.38 * 0.5;

/** Of the sheet; of a square window, the others differ by less than 1 %. */
const shineOf = (level: number): number => {
  const [acrossMm, downMm] = [PRINT.widthMm - 2 * BORDER_MM, PRINT.heightMm - 14];
  const sideMm = Math.sqrt((level / 100) * acrossMm * downMm) + 2 * RIM_REACH_MM;
  return level === 0 ? 0 : (100 * sideMm ** 2) / (PRINT.widthMm * PRINT.heightMm);
};

const shine = (words: string, times: number): TogetherLadder => ({
  defect: `a faint window mirrored by one capture${words}`,
  measure: "glareAreaPercent",
  truth: shineOf,
  levels: [0, 4, 15, 40],
  levelUnit: "% of the picture",
  draw: (level, seed, count) =>
    sheetsOf(
      count,
      seed,
      { print: printOf(seed) },
      { defects: level === 0 ? [] : [reflected([windowOf(level, seed)])] },
      { cast: [times, times, times] },
    ),
});

/** Light added at its full height by a window over a seventh of the picture. */
const brightWindow = (level: number, seed: number): Reflection => ({ ...windowOf(15, seed), peak: level / 100 });

/** The largest lightness that it adds to what a capture without noise shows, both seen through half a millimetre of blur as the measure does. */
function mostAdded(level: number, seed: number): number {
  if (level === 0) return 0;
  const drawn = (defects: NonNullable<SheetOptions["defects"]>) =>
    (sheetsOf(1, seed, { print: printOf(seed), noise: 0 }, { defects })[0] as CapturedSheet).picture;
  return mostLightnessAdded(drawn([]), drawn([reflected([brightWindow(level, seed)])]), (BLUR_MM * FIRST_PPI) / 25.4);
}

const BLUR_MM = 0.5;
/** Of the first device (compared-sheets.ts). */
const FIRST_PPI = 250;

const peak: TogetherLadder = {
  defect: "a window mirrored by one capture, ever brighter",
  measure: "glarePeakDeltaL",
  truth: mostAdded,
  levels: [0, 3, 10, 30, 90],
  levelUnit: "% of white added",
  draw: (level, seed, count) =>
    sheetsOf(count, seed, { print: printOf(seed) }, { defects: level === 0 ? [] : [reflected([brightWindow(level, seed)])] }),
};

/** Enough detail to be followed finely; a plain wall has none. */
const DETAILED = ["scene", "night"] as const;

/** Of real outlines over the whole frame; those smaller than three cells are not seen, so that fewer are told than were drawn. */
const dust = (depth: number, words: string): TogetherLadder => ({
  defect: `dust on one capture, ${words}`,
  measure: "dustPerCm2",
  truth: (level) => level,
  levels: [0, 2, 6],
  levelUnit: "per cm²",
  draw: (level, seed, count) =>
    sheetsOf(
      count,
      seed,
      { print: { ...PRINT, content: DETAILED[seed % DETAILED.length] ?? "scene" } },
      { defects: [dustOf({ perCm2: level, pxPerMm: 250 / 25.4, depth, seed })] },
    ),
});

const hair: TogetherLadder = {
  defect: "a hair on one capture, over the picture",
  measure: "scratchLengthMm",
  truth: (level) => level,
  levels: [0, 3, 10],
  levelUnit: "mm",
  draw: (level, seed, count) =>
    sheetsOf(
      count,
      seed,
      { print: { ...PRINT, content: DETAILED[seed % DETAILED.length] ?? "scene" } },
      {
        defects: [
          lineOf({
            x: 300,
            y: 330,
            lengthPx: (level * 250) / 25.4,
            widthPx: 1.5,
            headingDeg: 35,
            bendDeg: -30,
            depth: level === 0 ? 0 : 0.4,
          }),
        ],
      },
    ),
};

/** How much of them is seen has no true figure, whether any are has. */
const rings: TogetherLadder = {
  defect: "interference rings over one capture of a detailed picture",
  measure: "ringAreaPercent",
  truth: (level) => (level === 0 ? 0 : Number.NaN),
  levels: [0, 2, 5, 10],
  levelUnit: "% of the light",
  draw: (level, seed, count) =>
    sheetsOf(
      count,
      seed,
      { print: { ...PRINT, content: DETAILED[seed % DETAILED.length] ?? "scene" } },
      { defects: [ringsOf({ xMm: 22 + (seed % 5), yMm: 25, radiusMm: 40_000 + 5_000 * (seed % 3), amplitude: level / 100, fadeMm: 10 })] },
    ),
};

const SHARP_MM = 0.06;
/** Detail that falls off more or less steeply from content to content. */
const FALLS = [1.3, 1.1, 1.5] as const;
const tiltedBy = (level: number, degrees: 0 | 90 | 180 | 270): FineCapture => ({
  ppi: 300,
  blurMm: SHARP_MM,
  noiseCodes: 2,
  turnDeg: 2,
  noiseSeed: 1,
  ...(level > 0 && { softer: { mm: SHARP_MM * Math.sqrt(1 / (1 - level / 100) ** 2 - 1), degrees } }),
});
const UNTILTED: readonly FineCapture[] = [
  { ...tiltedBy(0, 0), ppi: 280, blurMm: 0.07, turnDeg: -1.5, quarters: 1, noiseSeed: 2 },
  { ...tiltedBy(0, 0), ppi: 330, blurMm: 0.065, turnDeg: 3, quarters: 2, noiseCodes: 3, noiseSeed: 3 },
];

/** Drawn with detail at every size, blurred as a whole: what differs between its captures is their blur alone. */
const tilted: TogetherLadder = {
  defect: "one capture falls off in sharpness to one side",
  measure: "focusFalloffPercent",
  truth: (level) => lostOver(tiltedBy(level, 0)),
  levels: [0, 10, 25, 50],
  levelUnit: "% at the far end of the drawing",
  draw: (level, seed, count) => {
    const print = onPaper(drawFinePrint(seed, { fall: FALLS[seed % FALLS.length] ?? 1.3 }));
    const degrees = ([0, 90, 180, 270] as const)[seed % 4] ?? 0;
    return [tiltedBy(level, degrees), ...UNTILTED]
      .slice(0, count)
      .map((options) => captureOnPaper(print, { ...options, noiseSeed: 10 * seed + options.noiseSeed }));
  },
};

export const TOGETHER_LADDERS: readonly TogetherLadder[] = [
  light,
  haze,
  shine("", 1),
  shine(", the second overexposed", 2.2),
  peak,
  dust(0.35, "a third of the light"),
  dust(0.2, "a fifth of the light"),
  dust(0.1, "a tenth of the light"),
  hair,
  rings,
  tilted,
];
