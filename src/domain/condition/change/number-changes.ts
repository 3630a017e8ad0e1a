import { ciede2000 } from "../../measure/colour/ciede2000.ts";
import type { Lab } from "../../measure/colour/lab.ts";
import { CHANGE_NAMES, CHANGES, type ChangeName } from "./change-names.ts";
import { middleColour } from "./colour-drift.ts";
import { densityRange, whitesOf } from "./density.ts";
import { BORDER, type LaidSheets, PICTURE } from "./lay-sheets.ts";
import { type Qualification, standardAlongAxis, standardOf, TRUENESS, type Trueness } from "./qualification.ts";
import { PLACE_MM, readChanges, TILE_MM } from "./read-changes.ts";
import { type Look, tilesOf, WHOLE } from "./tiles.ts";
import { expanded, type UncertaintyParts, type Verdict, verdictOn } from "./verdict.ts";

export type NumberChange =
  | {
      readonly name: ChangeName;
      readonly value: number;
      readonly unit: string;
      /** k = 2 */
      readonly expandedUncertainty: number;
      readonly parts: UncertaintyParts;
      readonly verdict: Verdict;
    }
  | { readonly name: ChangeName; readonly absent: string };

/**
 * Every number of change with its expanded uncertainty (JCGM 100:2008, k = 2). The parts are found by asking the captures
 * themselves: noise by reading four interleaved quarters of the cells, registration by moving the newer capture by a cell
 * (5.1.3, note 2: sensitivities by trial) times the residual, evenness by reading the four quarters of the sheet apart; how
 * far tones and colours are true at all is assumed from how the captures were taken (qualification.ts).
 */
export function numberChanges(sheets: LaidSheets, methods: readonly [older: Qualification, newer: Qualification]): NumberChange[] {
  const read = readChanges(sheets);
  const interleaved = [0, 1, 2, 3].map((phase) => readChanges(sheets, { ...WHOLE, keeps: (x, y) => (x & 1) + 2 * (y & 1) === phase }));
  const moved = [readChanges(sheets, { ...WHOLE, moveX: 1 }), readChanges(sheets, { ...WHOLE, moveY: 1 })];
  const quarters = quartersOf(sheets).map((look) => readChanges(sheets, look));
  const ofMethod = methodParts(sheets, methods);
  return CHANGE_NAMES.map((name): NumberChange => {
    const value = read[name];
    if (value === undefined || !Number.isFinite(value)) return { name, absent: whyAbsent(name, sheets, read) };
    const method = ofMethod(name);
    const parts = {
      noise: standardError(interleaved.flatMap((each) => each[name] ?? [])) ?? method,
      registration: Math.hypot(...moved.map((each) => (each[name] ?? value) - value)) * sheets.residualMm * sheets.pxPerMm,
      // a part that cannot be read is taken to be as large as what the method leaves open
      evenness: standardError(quarters.flatMap((each) => each[name] ?? [])) ?? method,
      method,
    };
    const expandedUncertainty = expanded(parts);
    return { name, value, unit: CHANGES[name].unit, expandedUncertainty, parts, verdict: verdictOn(value, expandedUncertainty, methods) };
  });
}

/** Experimental standard deviation of a mean (JCGM 100:2008, 4.2.3); null below two readings. */
function standardError(values: readonly number[]): number | null {
  if (values.length < 2) return null;
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return Math.sqrt(squares / (values.length - 1) / values.length);
}

function quartersOf({ older: { width, height } }: LaidSheets): Look[] {
  return [0, 1, 2, 3].map((quarter) => ({
    ...WHOLE,
    keeps: (x, y) => (x < width / 2 ? 0 : 1) + (y < height / 2 ? 0 : 2) === quarter,
  }));
}

/** L* that one unit of density is worth at a luminance: from L* = 116 Y^(1/3) - 16. */
const lightnessPerDensity = (luminance: number) => (116 / 3) * Math.LN10 * Math.cbrt(luminance);
/** a* or b* that an opposite step of red and blue density is worth near white, for one unit between both: about half of 200 / 3 × ln 10. */
const COLOUR_PER_DENSITY = 70;

function methodParts(sheets: LaidSheets, methods: readonly Qualification[]): (name: ChangeName) => number {
  const both = (of: (trueness: Trueness) => number) => Math.hypot(...methods.map((method) => of(TRUENESS[method])));
  const inLightness = both((t) => standardOf(t.lightness));
  const alongAxis = both((t) => standardAlongAxis(t.colour));
  const border = tilesOf(sheets, BORDER, TILE_MM, WHOLE);
  const picture = tilesOf(sheets, PICTURE, TILE_MM, WHOLE);
  const white = whitesOf(border)?.older[1] ?? 0.8;
  const besideBorder = both((t) => standardOf(t.besideBorder)) / lightnessPerDensity(white / 10);
  const ofColours = (tiles: typeof border) =>
    Math.hypot(...methods.map((method, index) => colourPart(middleColour(tiles, index === 0 ? "older" : "newer"), method)));
  const range = densityRange(tilesOf(sheets, PICTURE, PLACE_MM, WHOLE), "older") ?? 1;
  return (name) => {
    switch (name) {
      case "borderDeltaL":
      case "pictureDeltaL":
        return inLightness;
      case "borderDeltaE2000":
        return ofColours(border);
      case "pictureDeltaE2000":
        return ofColours(picture);
      case "borderRedDensityGain":
      case "borderGreenDensityGain":
      case "borderBlueDensityGain":
        return Math.hypot(inLightness / lightnessPerDensity(white), alongAxis / COLOUR_PER_DENSITY);
      case "borderBalanceShift":
        return (Math.SQRT2 * alongAxis) / COLOUR_PER_DENSITY;
      case "redDensityLoss":
      case "greenDensityLoss":
      case "blueDensityLoss":
      case "densityBalanceShift":
        return besideBorder;
      case "contrastChangePercent":
        return (100 * Math.hypot(besideBorder, both((t) => standardOf(t.besideBorder)) / lightnessPerDensity(white))) / range;
      default:
        return alongAxis;
    }
  };
}

/** ΔE00 that a capture's own lightness and colour may be off by, one axis at a time. */
function colourPart(colour: Lab, method: Qualification): number {
  const { lightness, colour: along } = TRUENESS[method];
  const off = (index: 0 | 1 | 2, by: number) =>
    ciede2000(colour, colour.map((value, at) => (at === index ? value + by : value)) as unknown as Lab);
  return Math.hypot(off(0, standardOf(lightness)), off(1, standardAlongAxis(along)), off(2, standardAlongAxis(along)));
}

function whyAbsent(name: ChangeName, sheets: LaidSheets, read: Partial<Record<ChangeName, number>>): string {
  if (!sheets.pictureMm && (CHANGES[name].part === "border" || CHANGES[name].unit === "D"))
    return "no plain border was seen, which densities and stains are read from";
  if (CHANGES[name].part === "border" || read.borderDeltaL === undefined)
    return "too little of the border is seen in both captures, or it is at the upper end of one of them; a darker capture would tell";
  if (CHANGES[name].unit === "D") return "too few places of the picture have a density near 1.0 above the border in this colour of light";
  return "too little of the picture is seen in both captures";
}
