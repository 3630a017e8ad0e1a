import type { Fine } from "../laying/lay-finely.ts";
import type { TileSpectra } from "../numbers/cross-spectra.ts";
import { median } from "../numbers/robust.ts";
import { fitSurface, type ValueAt } from "../numbers/smooth-surface.ts";
import { LEAST_VARIANCE_SHARE } from "./movement.ts";

const FEWEST_TILES = 12;
const SECOND_ORDER = 6;
const FEWEST_BANDS = 5;
/** Cross spectra count where the coherence is so large; below, chance and noise bend them. */
const LEAST_COHERENCE = 0.5;
/** Of two captures: share of a band's power that must not be noise. */
const LEAST_SIGNAL = 0.75;
/** Bands of a capture, as shares of half its sampling: those that count, and those that show its noise. */
const LAST_USED = 0.85;
const NOISE_FROM = 0.85;

/** By how much the blur of captures laid on each other differs, over the picture. */
export type BlurBetween = {
  /** the captures compared, as places among the fine ones */
  readonly of: readonly number[];
  /** where each tile lies in the planes, -1 to 1, and the variances of all captures there less their mean, mm² */
  readonly tiles: readonly { readonly u: number; readonly v: number; readonly variances: readonly number[] }[];
  /** of each capture: the terms of its surface (smooth-surface.ts), and their covariance, row by row */
  readonly terms: readonly (readonly number[])[];
  readonly covariance: readonly (readonly number[])[];
};

/** Null where fewer than twelve tiles tell. @param of places of the captures among the fine ones */
export function blurBetween(tiles: readonly TileSpectra[], fines: readonly Fine[], of: readonly number[]): BlurBetween | null {
  const [first] = fines as [Fine];
  const { width, height } = first.plane;
  const bands = bandsFor(tiles[0] as TileSpectra, fines, of);
  const read = tiles.flatMap((tile) => {
    const variances = variancesIn(tile, fines, of, bands);
    if (!variances) return [];
    const mean = variances.reduce((sum, each) => sum + each, 0) / variances.length;
    return [
      {
        u: (2 * (tile.x + 0.5)) / width - 1,
        v: (2 * (tile.y + 0.5)) / height - 1,
        variances: variances.map((each) => (each - mean) / first.pxPerMm ** 2),
      },
    ];
  });
  const surfaces = surfacesOver(read);
  return surfaces && { of, tiles: read, ...surfaces };
}

/** A surface for each capture; null where fewer than twelve tiles tell, or where they do not fix it. */
export function surfacesOver(tiles: BlurBetween["tiles"]): Pick<BlurBetween, "terms" | "covariance"> | null {
  if (tiles.length < FEWEST_TILES) return null;
  const fitted = (tiles[0]?.variances ?? []).map((_, index) =>
    fitSurface(
      tiles.map(({ u, v, variances }): ValueAt => ({ u, v, value: variances[index] as number })),
      SECOND_ORDER,
    ),
  );
  if (!fitted.every((each) => each !== null)) return null;
  // the surface takes as many terms out of what the tiles scatter by
  const times = (OVERLAP * tiles.length) / (tiles.length - SECOND_ORDER);
  return {
    terms: fitted.map((each) => each.terms),
    covariance: fitted.map((each) => each.unitCovariance.map((value) => times * value * each.scatter ** 2)),
  };
}

/**
 * Hann windows that overlap by half along both ways hang together little: their spectra by (1/6)² with each neighbour (P. D. Welch, 1967,
 * from memory), so that a surface through them scatters 1.1 times as much; 1.2 by drawn captures' scatter.
 */
const OVERLAP = 1.2;

/** Bands below half the sampling of every capture; the lowest, where the window leaks, left out. */
function bandsFor(tile: TileSpectra, fines: readonly Fine[], of: readonly number[]): number[] {
  const most = Math.min(...of.map((index) => halfOf(fines[index] as Fine)));
  return [...tile.cyclesPerPx.keys()].slice(1).filter((band) => (tile.cyclesPerPx[band] as number) < LAST_USED * most);
}

/** Half of a capture's own sampling, cycles per px of the planes. */
const halfOf = ({ ownPxPerMm, pxPerMm }: Fine) => Math.min(0.5, ownPxPerMm / pxPerMm / 2);

/** Variances of the blur of each capture in a tile, px², all of them off by what the picture shows; null where too little of it is clear. */
function variancesIn(tile: TileSpectra, fines: readonly Fine[], of: readonly number[], bands: readonly number[]): number[] | null {
  const power = (i: number, j: number) => tile.product(of[i] as number, of[j] as number);
  const products = of.map((_, i) => of.map((_, j) => power(i, j)));
  const at = (i: number, j: number, band: number) => products[i]?.[j]?.[band] as number;
  const noise = of.map((index, i) => noiseOf(tile, fines[index] as Fine, products[i]?.[i] as Float64Array));
  const kept: { x: number; weight: number; logs: number[] }[] = [];
  for (const band of bands) {
    const pairs = of.flatMap((_, i) => of.flatMap((_, j) => (j > i ? [[i, j] as const] : [])));
    const isCoherent = pairs.every(
      ([i, j]) => at(i, j, band) > 0 && at(i, j, band) ** 2 > LEAST_COHERENCE * at(i, i, band) * at(j, j, band),
    );
    const logs = isCoherent
      ? of.map((_, i) => (of.length > 2 ? byOthers(i, of.length, at, band) : byPower(at(i, i, band), noise[i] ?? 0)))
      : [];
    if (logs.length === 0 || logs.some((log) => !Number.isFinite(log))) break;
    kept.push({ x: (tile.cyclesPerPx[band] as number) ** 2, weight: tile.independent[band] as number, logs });
  }
  if (kept.length < FEWEST_BANDS) return null;
  const total = kept.reduce((sum, { weight }) => sum + weight, 0);
  const middle = kept.reduce((sum, { x, weight }) => sum + weight * x, 0) / total;
  const squares = kept.reduce((sum, { x, weight }) => sum + weight * (x - middle) ** 2, 0);
  return of.map((_, i) => {
    const slope = kept.reduce((sum, { x, weight, logs }) => sum + weight * (x - middle) * (logs[i] as number), 0) / squares;
    return -slope / (2 * Math.PI ** 2);
  });
}

/** Half the logarithm of what a capture shows, by each two others: the middle one. */
function byOthers(i: number, count: number, at: (i: number, j: number, band: number) => number, band: number): number {
  const values: number[] = [];
  for (let j = 0; j < count; j++)
    for (let k = j + 1; k < count; k++)
      if (i !== j && i !== k) values.push(Math.log((at(i, j, band) * at(i, k, band)) / at(j, k, band)) / 2);
  return median(values);
}

const byPower = (power: number, noise: number) => (noise < (1 - LEAST_SIGNAL) * power ? Math.log(power - noise) / 2 : Number.NaN);

function noiseOf(tile: TileSpectra, fine: Fine, power: Float64Array): number {
  const half = halfOf(fine);
  const finest = [...power].filter((_, band) => {
    const f = tile.cyclesPerPx[band] as number;
    return f > NOISE_FROM * half && f < half;
  });
  return finest.length > 0 ? median(finest) : 0;
}

/** Mean variance over the picture of each capture compared, mm²: by its own edges, or those of others and what they differ by; null where no edge was read. */
export function levelsOf({ of, tiles }: BlurBetween, known: readonly (number | null)[]): readonly number[] | null {
  if (of.every((capture) => known[capture] === null)) return null;
  return of.map((_, index) => {
    const told = of.flatMap((other, at) => {
      const level = known[other] ?? null;
      if (level === null) return [];
      return [level + median(tiles.map(({ variances }) => (variances[index] as number) - (variances[at] as number)))];
    });
    return Math.max(median(told), LEAST_VARIANCE_SHARE * Math.max(...told));
  });
}
