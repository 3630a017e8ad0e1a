import { lightnessOf } from "../measure/colour/lab.ts";
import { luminanceAt, type Picture } from "../measure/picture.ts";
import { done, type Outcome, type Refusal, refused } from "../outcome.ts";
import { dateInWords } from "../print/date.ts";
import { framePart } from "./corner-figures.ts";
import type { TargetReading } from "./read-target.ts";

/** Fields along the shorter side; each holds so many pixels that noise and the grain of paper are gone from its mean. */
const FIELDS_SHORT = 12;
/** Each field is read in squares of its own, to see whether anything but light changes from one to the next. */
const SQUARES = 4;
/** Pixels looked at along a square's side, at the most. */
const MOST_ACROSS = 40;
const MOST_CLIPPED = 0.02;
/** L* from one square to the next beyond which it is an edge, a shadow or writing, not light that falls off (own figure). */
const STEEPEST = 4;
/** Darker than this on average, and it is no white or grey sheet in good light (own figure). */
const DARKEST = 30;

/**
 * Evenness of light and lens from a picture of a plain white or grey sheet that fills the frame: standard deviation over mean of the
 * lightness of its fields, percent (FADGI 2016; the 2023 edition as quoted: of the sampled areas). `about` of a refusal is left to who asks.
 */
export function readEvenSheet(picture: Picture): Outcome<TargetReading> {
  if (Math.min(picture.widthPx, picture.heightPx) < FIELDS_SHORT * SQUARES) return refused(TOO_SMALL);
  const { squares, columns, rows, clipped } = squaresOf(picture);
  if (clipped > MOST_CLIPPED) return refused(TOO_BRIGHT);
  const fields = fieldsOf(squares, columns, rows);
  const lightness = fields.map(({ light }) => lightnessOf(light));
  const mean = lightness.reduce((sum, each) => sum + each, 0) / lightness.length;
  if (mean < DARKEST) return refused(TOO_DARK);
  if (steepestStep(squares.map(lightnessOf), columns) > STEEPEST) return refused(NOT_PLAIN);
  const variance = lightness.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (lightness.length - 1);
  const placeOf = (value: number) => {
    const field = fields[lightness.indexOf(value)];
    const part = field ? framePart(field) : "middle";
    return `L* ${value.toFixed(1)}${part === "between" ? "" : ` ${part === "middle" ? "in the middle" : part}`}`;
  };
  const [most, least] = [Math.max(...lightness), Math.min(...lightness)];
  return done({
    name: "lightnessUniformityPercent",
    value: (100 * Math.sqrt(variance)) / mean,
    note: `Over the whole frame: lightest ${placeOf(most)}, darkest ${placeOf(least)}.`,
  });
}

/** What a sheet over the whole frame tells of evenness stands in the place of what a target tells of its own part of it. */
export function withEvenSheet(
  readings: readonly TargetReading[],
  sheet: { readonly takenOn: string; readonly readings: readonly TargetReading[] } | null,
): TargetReading[] {
  const told = sheet?.readings.find((reading) => "value" in reading && reading.name === "lightnessUniformityPercent");
  if (!sheet || !told || !("value" in told)) return [...readings];
  const dated = { ...told, note: `From the even sheet of ${dateInWords(sheet.takenOn)}. ${told.note ?? ""}`.trim() };
  return readings.map((reading) => (reading.name === told.name ? dated : reading));
}

type Squares = {
  /** mean luminance 0..1, row by row */
  readonly squares: readonly number[];
  readonly columns: number;
  readonly rows: number;
  /** share of the pixels looked at with a channel at its upper end */
  readonly clipped: number;
};

function squaresOf(picture: Picture): Squares {
  const { widthPx, heightPx, codes, maxCode } = picture;
  const shorter = Math.min(widthPx, heightPx);
  const along = (lengthPx: number) => SQUARES * Math.max(1, Math.round((FIELDS_SHORT * lengthPx) / shorter));
  const [columns, rows] = [along(widthPx), along(heightPx)];
  const squares = new Array<number>(columns * rows).fill(0);
  let [looked, atEnd] = [0, 0];
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const xs = stepsBetween((column * widthPx) / columns, ((column + 1) * widthPx) / columns);
      const ys = stepsBetween((row * heightPx) / rows, ((row + 1) * heightPx) / rows);
      let sum = 0;
      for (const y of ys)
        for (const x of xs) {
          sum += luminanceAt(picture, x, y);
          const at = (y * widthPx + x) * 3;
          if (codes[at] === maxCode || codes[at + 1] === maxCode || codes[at + 2] === maxCode) atEnd++;
        }
      looked += xs.length * ys.length;
      squares[row * columns + column] = sum / (xs.length * ys.length);
    }
  return { squares, columns, rows, clipped: atEnd / looked };
}

function stepsBetween(from: number, to: number): number[] {
  const step = Math.max(1, (to - from) / MOST_ACROSS);
  return Array.from({ length: Math.max(1, Math.floor((to - from) / step)) }, (_, index) => Math.floor(from + index * step));
}

function fieldsOf(squares: readonly number[], columns: number, rows: number) {
  const [across, down] = [Math.ceil(columns / SQUARES), Math.ceil(rows / SQUARES)];
  return Array.from({ length: across * down }, (_, index) => {
    const [left, top] = [(index % across) * SQUARES, Math.floor(index / across) * SQUARES];
    const [right, bottom] = [Math.min(columns, left + SQUARES), Math.min(rows, top + SQUARES)];
    let sum = 0;
    for (let y = top; y < bottom; y++) for (let x = left; x < right; x++) sum += squares[y * columns + x] ?? 0;
    return {
      light: sum / ((right - left) * (bottom - top)),
      across: (left + right) / columns - 1,
      down: (top + bottom) / rows - 1,
    };
  });
}

function steepestStep(lightness: readonly number[], columns: number): number {
  let steepest = 0;
  lightness.forEach((value, index) => {
    const right = index % columns === columns - 1 ? value : (lightness[index + 1] ?? value);
    const below = lightness[index + columns] ?? value;
    steepest = Math.max(steepest, Math.abs(value - right), Math.abs(value - below));
  });
  return steepest;
}

const sheetRefusal = (happened: string, remedy: string): Refusal => ({ about: null, happened, remedy });

const TOO_SMALL = sheetRefusal(
  `The picture is too small: its shorter side has fewer than ${FIELDS_SHORT * SQUARES} px.`,
  "Choose the file as the camera or scanner made it, not a small view of it.",
);
const TOO_BRIGHT = sheetRefusal(
  "The sheet is so bright that parts of it are clipped, and clipped parts look even.",
  "Take it again with a shorter exposure, so that the sheet is a light grey.",
);
const TOO_DARK = sheetRefusal(
  "The picture is too dark for a plain white or grey sheet.",
  "Take a white or light grey sheet with the exposure that prints get.",
);
const NOT_PLAIN = sheetRefusal(
  "Something else than plain paper is in the picture: an edge, a shadow or a pattern.",
  "Take a larger sheet, or go nearer, so that plain paper without creases fills the whole frame.",
);
