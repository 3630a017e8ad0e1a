/** A picture for the screen: sRGB codes of 8 bits, three channels interleaved, row by row. Pixel centres lie on whole numbers. */
export type ScreenPicture = { readonly widthPx: number; readonly heightPx: number; readonly codes: Uint8Array };

type Place = { x: number; y: number };
/** Writes where a pixel of what is made lies in the source, px. */
type PlaceInSource = (x: number, y: number, into: Place) => void;

/** Where the frame ends before the canvas does: the neutral grey that pictures stand on. */
export const BEYOND = 150;

const STEPS = 256;
/** Places are asked for at every so many pixels and run straight in between: maps of prints bend far less. */
const CELL_PX = 16;

type Kernel = {
  readonly lobes: number;
  /** of all taps, for each of STEPS places between two pixels; each row sums to 1 */
  readonly weights: Float32Array;
};

function kernelOf(lobes: number): Kernel {
  const taps = 2 * lobes;
  const weights = new Float32Array((STEPS + 1) * taps);
  for (let step = 0; step <= STEPS; step++) {
    const row = Array.from({ length: taps }, (_, tap) => lanczos(tap - (lobes - 1) - step / STEPS, lobes));
    const sum = row.reduce((total, weight) => total + weight, 0);
    for (let tap = 0; tap < taps; tap++) weights[step * taps + tap] = (row[tap] as number) / sum;
  }
  return { lobes, weights };
}

/** Sinc under a wider sinc: C. E. Duchon, "Lanczos Filtering in One and Two Dimensions", 1979. */
function lanczos(t: number, lobes: number): number {
  if (t === 0) return 1;
  if (Math.abs(t) >= lobes) return 0;
  const x = Math.PI * t;
  return (lobes * Math.sin(x) * Math.sin(x / lobes)) / (x * x);
}

/** For looking at once. Halfway between two pixels it keeps 0.98 of a pattern of 0.3 cycles a pixel, and 0.65 at 0.4. */
const QUICK = kernelOf(3);
/** For what is kept: 0.99 of 0.35 cycles a pixel, 1.02 of 0.4, in seven times as long. */
export const FAITHFUL = kernelOf(8);

/**
 * Samples a picture anew, by a Lanczos kernel, on a grid that is not coarser than its own: then nothing finer is left to turn into a
 * false pattern, and what was resolved is kept as far as the kernel goes. In the codes as they are, as what is seen.
 */
export function sampleScreen(
  source: ScreenPicture,
  placeOf: PlaceInSource,
  widthPx: number,
  heightPx: number,
  kernel: Kernel = QUICK,
): ScreenPicture {
  const codes = new Uint8Array(widthPx * heightPx * 3);
  const columns = Math.ceil(widthPx / CELL_PX) + 1;
  let above = placesAlong(placeOf, columns, 0);
  for (let top = 0; top < heightPx; top += CELL_PX) {
    const below = placesAlong(placeOf, columns, top + CELL_PX);
    const rows = Math.min(CELL_PX, heightPx - top);
    for (let row = 0; row < rows; row++) sampleRow(source, kernel, codes, (top + row) * widthPx, widthPx, above, below, row / CELL_PX);
    above = below;
  }
  return { widthPx, heightPx, codes };
}

/** x and y of places at every cell along a row. */
function placesAlong(placeOf: PlaceInSource, columns: number, y: number): Float64Array {
  const places = new Float64Array(2 * columns);
  const place = { x: 0, y: 0 };
  for (let column = 0; column < columns; column++) {
    placeOf(column * CELL_PX, y, place);
    places[2 * column] = place.x;
    places[2 * column + 1] = place.y;
  }
  return places;
}

/** Written out, since it looks at every pixel of a sheet. */
function sampleRow(
  { widthPx, heightPx, codes }: ScreenPicture,
  { lobes, weights }: Kernel,
  into: Uint8Array,
  rowStart: number,
  width: number,
  above: Float64Array,
  below: Float64Array,
  share: number,
): void {
  const taps = 2 * lobes;
  for (let left = 0, cell = 0; left < width; left += CELL_PX, cell += 2) {
    const startX = mixed(above[cell] as number, below[cell] as number, share);
    const startY = mixed(above[cell + 1] as number, below[cell + 1] as number, share);
    const stepX = (mixed(above[cell + 2] as number, below[cell + 2] as number, share) - startX) / CELL_PX;
    const stepY = (mixed(above[cell + 3] as number, below[cell + 3] as number, share) - startY) / CELL_PX;
    const end = Math.min(width, left + CELL_PX);
    for (let column = left; column < end; column++) {
      const x = startX + (column - left) * stepX;
      const y = startY + (column - left) * stepY;
      const to = 3 * (rowStart + column);
      if (!(x >= -0.5 && y >= -0.5 && x <= widthPx - 0.5 && y <= heightPx - 0.5)) {
        into[to] = into[to + 1] = into[to + 2] = BEYOND;
        continue;
      }
      const [x0, y0] = [Math.floor(x), Math.floor(y)];
      const across = taps * Math.round((x - x0) * STEPS);
      const down = taps * Math.round((y - y0) * STEPS);
      const firstX = x0 - lobes + 1;
      const firstY = y0 - lobes + 1;
      const isInside = firstX >= 0 && firstY >= 0 && firstX + taps <= widthPx && firstY + taps <= heightPx;
      let [red, green, blue] = [0, 0, 0];
      for (let j = 0; j < taps; j++) {
        const line = (isInside ? firstY + j : bounded(firstY + j, heightPx)) * widthPx;
        const weightDown = weights[down + j] as number;
        for (let i = 0; i < taps; i++) {
          const weight = weightDown * (weights[across + i] as number);
          const at = 3 * (line + (isInside ? firstX + i : bounded(firstX + i, widthPx)));
          red += weight * (codes[at] as number);
          green += weight * (codes[at + 1] as number);
          blue += weight * (codes[at + 2] as number);
        }
      }
      into[to] = rounded(red);
      into[to + 1] = rounded(green);
      into[to + 2] = rounded(blue);
    }
  }
}

const mixed = (one: number, other: number, share: number) => one + (other - one) * share;
const bounded = (at: number, length: number) => (at < 0 ? 0 : at >= length ? length - 1 : at);
const rounded = (code: number) => (code <= 0 ? 0 : code >= 255 ? 255 : (code + 0.5) | 0);
