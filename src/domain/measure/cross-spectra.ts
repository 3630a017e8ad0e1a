import { hannWindow, type Spectrum, TileTransform } from "./fourier.ts";
import type { GridPlane } from "./grid-plane.ts";

/** Mean products of the spectra of several planes, by frequency. */
export type CrossSpectra = {
  /** middle of each band, cycles per px */
  readonly cyclesPerPx: Float64Array;
  /** real part of the mean of conj(i) × j in a band: `product(i, j)[band]`; power where i = j */
  readonly product: (i: number, j: number) => Float64Array;
  /** values averaged in each band that do not hang together: overlapping windows count for less */
  readonly independent: Float64Array;
  readonly tiles: number;
};

const TILE_PX = 256;
/** Bands of two lines of the tile's spectrum. */
const LINES_PER_BAND = 2;
const MOST_TILES_ALONG = 9;
/** Share of the values that Hann windows overlapping by half leave independent, from memory (P. D. Welch, 1967). */
const INDEPENDENT_SHARE = 0.5;

/**
 * Spectra of planes of one size in tiles of 256 px that all of them hold whole, half overlapped, under a Hann window,
 * their mean taken out, averaged over tiles and then over directions. In two halves, every second tile, to see how far chance goes.
 * Null below two tiles a half.
 * Source: P. D. Welch, "The Use of Fast Fourier Transform for the Estimation of Power Spectra", 1967.
 */
export function crossSpectra(planes: readonly GridPlane[]): readonly [CrossSpectra, CrossSpectra] | null {
  const transform = new TileTransform(TILE_PX);
  const window = hannWindow(TILE_PX);
  const sums = [new Sums(planes.length), new Sums(planes.length)] as const;
  let whole = 0;
  for (const tile of tilesOf(planes[0] as GridPlane)) {
    const cut = planes.map((plane) => cutOut(plane, tile, window));
    if (cut.some((each) => each === null)) continue;
    const spectra: Spectrum[] = [];
    for (let k = 0; k < cut.length; k += 2) spectra.push(...transform.pair(cut[k] as Float32Array, (cut[k + 1] ?? cut[k]) as Float32Array));
    sums[whole % 2 === 0 ? 0 : 1].add(spectra);
    whole++;
  }
  return whole < 4 ? null : [sums[0].means(), sums[1].means()];
}

/** Both halves as one. */
export function joined([one, other]: readonly [CrossSpectra, CrossSpectra]): CrossSpectra {
  const share = one.tiles / (one.tiles + other.tiles);
  return {
    cyclesPerPx: one.cyclesPerPx,
    product: (i, j) => {
      const theirs = other.product(i, j);
      return one.product(i, j).map((value, band) => share * value + (1 - share) * (theirs[band] as number));
    },
    independent: one.independent.map((count, band) => count + (other.independent[band] as number)),
    tiles: one.tiles + other.tiles,
  };
}

/** Band of each value of the right half of a spectrum; the left half mirrors it. -1 beyond half the sampling. */
const BANDS = TILE_PX / 2 / LINES_PER_BAND;
const bandOf = Int16Array.from({ length: (TILE_PX * TILE_PX) / 2 }, (_, at) => {
  const x = at % (TILE_PX / 2);
  const y = Math.floor(at / (TILE_PX / 2));
  const band = Math.floor(Math.hypot(x, y < TILE_PX / 2 ? y : y - TILE_PX) / LINES_PER_BAND);
  return x === 0 || band >= BANDS ? -1 : band;
});
const VALUES = bandOf.reduce((counts, band) => {
  if (band >= 0) counts[band] = (counts[band] as number) + 1;
  return counts;
}, new Float64Array(BANDS));

class Sums {
  readonly #of: Float64Array[][];
  #tiles = 0;

  constructor(planes: number) {
    this.#of = Array.from({ length: planes }, () => Array.from({ length: planes }, () => new Float64Array(BANDS)));
  }

  add(spectra: readonly Spectrum[]): void {
    this.#tiles++;
    for (const [i, row] of this.#of.entries()) {
      for (let j = i; j < row.length; j++) addProduct(row[j] as Float64Array, spectra[i] as Spectrum, spectra[j] as Spectrum);
    }
  }

  means(): CrossSpectra {
    const tiles = this.#tiles;
    const sums = this.#of;
    return {
      cyclesPerPx: Float64Array.from({ length: BANDS }, (_, band) => ((band + 0.5) * LINES_PER_BAND) / TILE_PX),
      product: (i, j) =>
        ((sums[Math.min(i, j)] as Float64Array[])[Math.max(i, j)] as Float64Array).map(
          (sum, band) => sum / (tiles * Math.max(1, VALUES[band] as number)),
        ),
      independent: VALUES.map((count) => count * tiles * INDEPENDENT_SHARE),
      tiles,
    };
  }
}

function addProduct(sums: Float64Array, one: Spectrum, other: Spectrum): void {
  for (let at = 0; at < bandOf.length; at++) {
    const band = bandOf[at] as number;
    if (band < 0) continue;
    const where = 2 * (Math.floor(at / (TILE_PX / 2)) * TILE_PX + (at % (TILE_PX / 2)));
    sums[band] =
      (sums[band] as number) +
      (one[where] as number) * (other[where] as number) +
      (one[where + 1] as number) * (other[where + 1] as number);
  }
}

type Tile = { readonly x: number; readonly y: number };

function tilesOf({ width, height }: GridPlane): Tile[] {
  const starts = (length: number) => {
    const count = Math.min(MOST_TILES_ALONG, Math.floor((2 * length) / TILE_PX) - 1);
    if (count < 1) return [];
    return Array.from({ length: count }, (_, k) => (count === 1 ? 0 : Math.floor((k * (length - TILE_PX)) / (count - 1))));
  };
  return starts(height).flatMap((y) => starts(width).map((x) => ({ x, y })));
}

/** Null where the plane does not hold the tile whole. */
function cutOut({ width, data }: GridPlane, tile: Tile, window: Float32Array): Float32Array | null {
  const cut = new Float32Array(TILE_PX * TILE_PX);
  let sum = 0;
  for (let y = 0; y < TILE_PX; y++) {
    for (let x = 0; x < TILE_PX; x++) {
      const value = data[(tile.y + y) * width + tile.x + x] as number;
      cut[y * TILE_PX + x] = value;
      sum += value;
    }
  }
  if (Number.isNaN(sum)) return null;
  const mean = sum / cut.length;
  return cut.map((value, at) => (value - mean) * (window[at] as number));
}
