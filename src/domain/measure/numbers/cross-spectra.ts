import type { GridPlane } from "../planes/grid-plane.ts";
import { hannWindow, type Spectrum, TileTransform } from "./fourier.ts";

/** Mean products of the spectra of several planes, by frequency. */
export type CrossSpectra = {
  /** middle of each band, cycles per px */
  readonly cyclesPerPx: Float64Array;
  /** real part of the mean of conj(i) × j in a band: `product(i, j)[band]`; power where i = j */
  readonly product: (i: number, j: number) => Float64Array;
  /** values averaged in each band that do not hang together: overlapping windows count for less */
  readonly independent: Float64Array;
  readonly tiles: number;
  /** side of a tile; bands of smaller ones are broader */
  readonly tilePx: number;
};

/** Of a plane that holds too few of the larger tiles, the smaller; their bands are twice as broad. */
const TILES_PX = [256, 128] as const;
/** Bands of two lines of the tile's spectrum. */
const LINES_PER_BAND = 2;
const MOST_TILES_ALONG = 9;
/** Share of the values that Hann windows overlapping by half leave independent, from memory (P. D. Welch, 1967). */
const INDEPENDENT_SHARE = 0.5;

/**
 * Spectra of planes of one size in tiles of 256 px (128 px where fewer than four of those fit) that all of them hold whole, half overlapped, under a Hann window,
 * their mean taken out, averaged over tiles and then over directions. In two halves, every second tile, to see how far chance goes.
 * Null below two tiles a half.
 * Source: P. D. Welch, "The Use of Fast Fourier Transform for the Estimation of Power Spectra", 1967.
 */
export function crossSpectra(planes: readonly GridPlane[]): readonly [CrossSpectra, CrossSpectra] | null {
  for (const tilePx of TILES_PX) {
    const found = spectraInTiles(planes, tilePx);
    if (found) return found;
  }
  return null;
}

function spectraInTiles(planes: readonly GridPlane[], tilePx: number): readonly [CrossSpectra, CrossSpectra] | null {
  const transform = new TileTransform(tilePx);
  const window = hannWindow(tilePx);
  const bands = bandsOf(tilePx);
  const sums = [new Sums(planes.length, tilePx, bands), new Sums(planes.length, tilePx, bands)] as const;
  let whole = 0;
  for (const tile of tilesOf(planes[0] as GridPlane, tilePx)) {
    const spectra = spectraAt(planes, tile, window, transform);
    if (!spectra) continue;
    sums[whole % 2 === 0 ? 0 : 1].add(spectra);
    whole++;
  }
  return whole < 4 ? null : [sums[0].means(), sums[1].means()];
}

/** Of one tile, in the middle of which `x`, `y` lie in the planes, px. */
export type TileSpectra = CrossSpectra & { readonly x: number; readonly y: number };

/** The same tile by tile, 128 px a side, each for itself. */
export function spectraByTile(planes: readonly GridPlane[]): TileSpectra[] {
  const tilePx = TILES_PX[1];
  const transform = new TileTransform(tilePx);
  const window = hannWindow(tilePx);
  const bands = bandsOf(tilePx);
  return tilesOf(planes[0] as GridPlane, tilePx).flatMap((tile) => {
    const spectra = spectraAt(planes, tile, window, transform);
    if (!spectra) return [];
    const sums = new Sums(planes.length, tilePx, bands);
    sums.add(spectra);
    return [{ ...sums.means(), x: tile.x + (tilePx - 1) / 2, y: tile.y + (tilePx - 1) / 2 }];
  });
}

/** Null where one of the planes does not hold the tile whole. */
function spectraAt(planes: readonly GridPlane[], tile: Tile, window: Float32Array, transform: TileTransform): Spectrum[] | null {
  const cut = planes.map((plane) => cutOut(plane, tile, window, transform.sizePx));
  if (cut.some((each) => each === null)) return null;
  const spectra: Spectrum[] = [];
  for (let k = 0; k < cut.length; k += 2) spectra.push(...transform.pair(cut[k] as Float32Array, (cut[k + 1] ?? cut[k]) as Float32Array));
  return spectra;
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
    tilePx: one.tilePx,
  };
}

type Bands = { readonly count: number; readonly of: Int16Array; readonly values: Float64Array };

/** Band of each value of the right half of a spectrum, the left half mirrors it, -1 beyond half the sampling; and how many values each has. */
function bandsOf(tilePx: number): Bands {
  const count = tilePx / 2 / LINES_PER_BAND;
  const half = tilePx / 2;
  const of = Int16Array.from({ length: tilePx * half }, (_, at) => {
    const x = at % half;
    const y = Math.floor(at / half);
    const band = Math.floor(Math.hypot(x, y < half ? y : y - tilePx) / LINES_PER_BAND);
    return x === 0 || band >= count ? -1 : band;
  });
  const values = of.reduce((counts, band) => {
    if (band >= 0) counts[band] = (counts[band] as number) + 1;
    return counts;
  }, new Float64Array(count));
  return { count, of, values };
}

class Sums {
  readonly #of: Float64Array[][];
  readonly #tilePx: number;
  readonly #bands: Bands;
  #tiles = 0;

  constructor(planes: number, tilePx: number, bands: Bands) {
    this.#tilePx = tilePx;
    this.#bands = bands;
    this.#of = Array.from({ length: planes }, () => Array.from({ length: planes }, () => new Float64Array(bands.count)));
  }

  add(spectra: readonly Spectrum[]): void {
    this.#tiles++;
    for (const [i, row] of this.#of.entries()) {
      for (let j = i; j < row.length; j++)
        addProduct(row[j] as Float64Array, spectra[i] as Spectrum, spectra[j] as Spectrum, this.#bands.of, this.#tilePx);
    }
  }

  means(): CrossSpectra {
    const tiles = this.#tiles;
    const sums = this.#of;
    const tilePx = this.#tilePx;
    const { count, values } = this.#bands;
    return {
      cyclesPerPx: Float64Array.from({ length: count }, (_, band) => ((band + 0.5) * LINES_PER_BAND) / tilePx),
      product: (i, j) =>
        ((sums[Math.min(i, j)] as Float64Array[])[Math.max(i, j)] as Float64Array).map(
          (sum, band) => sum / (tiles * Math.max(1, values[band] as number)),
        ),
      independent: values.map((inBand) => inBand * tiles * INDEPENDENT_SHARE),
      tiles,
      tilePx,
    };
  }
}

function addProduct(sums: Float64Array, one: Spectrum, other: Spectrum, bandOf: Int16Array, tilePx: number): void {
  for (let at = 0; at < bandOf.length; at++) {
    const band = bandOf[at] as number;
    if (band < 0) continue;
    const where = 2 * (Math.floor(at / (tilePx / 2)) * tilePx + (at % (tilePx / 2)));
    sums[band] =
      (sums[band] as number) +
      (one[where] as number) * (other[where] as number) +
      (one[where + 1] as number) * (other[where + 1] as number);
  }
}

type Tile = { readonly x: number; readonly y: number };

function tilesOf({ width, height }: GridPlane, tilePx: number): Tile[] {
  const starts = (length: number) => {
    const count = Math.min(MOST_TILES_ALONG, Math.floor((2 * length) / tilePx) - 1);
    if (count < 1) return [];
    return Array.from({ length: count }, (_, k) => (count === 1 ? 0 : Math.floor((k * (length - tilePx)) / (count - 1))));
  };
  return starts(height).flatMap((y) => starts(width).map((x) => ({ x, y })));
}

/** Null where the plane does not hold the tile whole. */
function cutOut({ width, data }: GridPlane, tile: Tile, window: Float32Array, tilePx: number): Float32Array | null {
  const cut = new Float32Array(tilePx * tilePx);
  let sum = 0;
  for (let y = 0; y < tilePx; y++) {
    for (let x = 0; x < tilePx; x++) {
      const value = data[(tile.y + y) * width + tile.x + x] as number;
      cut[y * tilePx + x] = value;
      sum += value;
    }
  }
  if (Number.isNaN(sum)) return null;
  const mean = sum / cut.length;
  return cut.map((value, at) => (value - mean) * (window[at] as number));
}
