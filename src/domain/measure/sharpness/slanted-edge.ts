import { quantile } from "../numbers/robust.ts";
import { type EdgePlaces, type EdgeStrip, edgePlaces, FEWEST_ROWS, meanSlope, wholeCycles } from "./edge-places.ts";
import { type EdgeShape, firstFall, response, riseWidth, shapeOf } from "./edge-response.ts";
import { levelsOf, plainRows, plateaus, project } from "./edge-spread.ts";

export type EdgeResponse = EdgeShape & {
  /** lean of the edge from the columns, degrees; positive when it runs to the right on its way down */
  readonly angleDeg: number;
  /** how often the edge passes through all positions between two columns */
  readonly cycles: number;
  /** share of the quarter-pixel bins that no pixel fell into */
  readonly emptyShare: number;
  /** (bright - dark) / (bright + dark), and the step between them in linear light */
  readonly contrast: number;
  readonly step: number;
  readonly stepToNoise: number;
  /** how much the step changes along the edge: its 10 % to 90 % range over its median */
  readonly stepRange: number;
  /** distance between 10 % and 90 % of the step, px across the edge */
  readonly widthPx: number;
  /** cycles per pixel across the edge, from 0 in steps of about 0.005, and the modulation there (1 at 0) */
  readonly frequencies: Float64Array;
  readonly modulation: Float64Array;
  /** where the modulation first falls to 0.5 and to 0.1, cycles per pixel; null when it does not below 1 */
  readonly sfr50: number | null;
  readonly sfr10: number | null;
};

export type EdgeRefusal = { readonly refused: string };

/**
 * Spatial frequency response of one edge, the "e-SFR" of ISO 12233:2014, clauses 6.2.4 and 6.2.5, on linear light:
 * edge place in each row as the centroid of the derivative, fit through the rows, whole phase cycles, projection into
 * bins of a quarter pixel, derivative by [-1/2, 0, +1/2], Hamming window, modulus of the Fourier transform, response
 * of that derivative divided out, and the frequency axis divided by the cosine of the true angle.
 *
 * The response of the derivative filter is sin(w)/w with w = 2 pi f / 4 (the formula as printed in the standard fits
 * a two-point filter). Two things are added for edges of real prints: each row is scaled to its own smoothed plateaus,
 * so that uneven light along the edge does no harm, and rows whose plateaus are not plain are left out.
 *
 * `known` are the places of the edge where they were found before; the curve ends where it first falls below `lowest`. Returns a refusal, in words for the keeper, when there is no readable edge.
 */
export function slantedEdge(strip: EdgeStrip, known: EdgePlaces | null = null, lowest = 0): EdgeResponse | EdgeRefusal {
  if (strip.rows < FEWEST_ROWS || strip.widthPx < 16) return { refused: "the edge is too short to be read" };
  const places = known ?? edgePlaces(strip);
  if (!places) return { refused: "no straight edge was found here" };
  const levels = plateaus(strip, places.columns);
  if (!levels) return { refused: "the edge leaves the strip that was looked at" };
  const rows = plainRows(levels, places, wholeCycles(places.columns));
  if (rows.length < FEWEST_ROWS || rows.length < 0.4 * strip.rows)
    return { refused: "what lies beside the edge changes too much along it" };
  const { dark, bright } = levelsOf(levels, rows);
  const contrast = (bright - dark) / (bright + dark);
  if (!(contrast >= 0.05)) return { refused: "the edge has too little contrast (below 5 %)" };
  const slope = meanSlope(places.columns);
  const cosine = 1 / Math.hypot(1, slope);
  const spread = project(strip, places.columns, levels, rows);
  const stepToNoise = 1 / Math.max(1e-6, spread.noise);
  if (stepToNoise < 10) return { refused: "noise or texture drowns the edge (step below ten times the noise)" };
  const { frequencies, modulation } = response(spread.values, cosine, lowest);
  return {
    angleDeg: (Math.atan(slope) * 180) / Math.PI,
    cycles: Math.abs(slope) * strip.rows,
    emptyShare: spread.emptyShare,
    contrast,
    step: bright - dark,
    stepToNoise,
    stepRange: rangeOf(rows.map((row) => Math.abs((levels.right[row] as number) - (levels.left[row] as number)))),
    widthPx: riseWidth(spread.values) * cosine,
    ...shapeOf(spread.values),
    frequencies,
    modulation,
    sfr50: firstFall(frequencies, modulation, 0.5),
    sfr10: firstFall(frequencies, modulation, 0.1),
  };
}

const rangeOf = (values: readonly number[]) => (quantile(values, 0.9) - quantile(values, 0.1)) / quantile(values, 0.5);
