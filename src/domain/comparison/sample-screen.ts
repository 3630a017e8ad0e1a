/** A picture for the screen: sRGB codes of 8 bits, three channels interleaved, row by row. Pixel centres lie on whole numbers. */
export type ScreenPicture = { readonly widthPx: number; readonly heightPx: number; readonly codes: Uint8Array };

type Place = { x: number; y: number };
/** Writes where a pixel of what is made lies in the source, px. */
export type PlaceInSource = (x: number, y: number, into: Place) => void;

/** Where the frame ends before the canvas does: the neutral grey that pictures stand on. */
export const BEYOND = 150;

const LOBES = 3;
const TAPS = 2 * LOBES;
const STEPS = 256;
/** Places are asked for at every so many pixels and run straight in between: maps of prints bend far less. */
const CELL_PX = 16;

/** Weights of the six taps for each of so many places between two pixels; each row sums to 1. */
const WEIGHTS = new Float32Array((STEPS + 1) * TAPS);
for (let step = 0; step <= STEPS; step++) {
  const taps = Array.from({ length: TAPS }, (_, tap) => lanczos(tap - (LOBES - 1) - step / STEPS));
  const sum = taps.reduce((total, weight) => total + weight, 0);
  for (let tap = 0; tap < TAPS; tap++) WEIGHTS[step * TAPS + tap] = (taps[tap] as number) / sum;
}

/** Sinc under a wider sinc: C. E. Duchon, "Lanczos Filtering in One and Two Dimensions", 1979. */
function lanczos(t: number): number {
  if (t === 0) return 1;
  if (Math.abs(t) >= LOBES) return 0;
  const x = Math.PI * t;
  return (LOBES * Math.sin(x) * Math.sin(x / LOBES)) / (x * x);
}

/**
 * Samples a picture anew, by a Lanczos kernel of three lobes, on a grid that is not coarser than its own: then nothing finer is left
 * to turn into a false pattern, and nothing that was resolved is lost. In the codes as they are, as what is seen.
 */
export function sampleScreen(source: ScreenPicture, placeOf: PlaceInSource, widthPx: number, heightPx: number): ScreenPicture {
  const codes = new Uint8Array(widthPx * heightPx * 3);
  const columns = Math.ceil(widthPx / CELL_PX) + 1;
  let above = placesAlong(placeOf, columns, 0);
  for (let top = 0; top < heightPx; top += CELL_PX) {
    const below = placesAlong(placeOf, columns, top + CELL_PX);
    const rows = Math.min(CELL_PX, heightPx - top);
    for (let row = 0; row < rows; row++) sampleRow(source, codes, (top + row) * widthPx, widthPx, above, below, row / CELL_PX);
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
  into: Uint8Array,
  rowStart: number,
  width: number,
  above: Float64Array,
  below: Float64Array,
  share: number,
): void {
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
      const across = TAPS * Math.round((x - x0) * STEPS);
      const down = TAPS * Math.round((y - y0) * STEPS);
      const firstX = x0 - LOBES + 1;
      const firstY = y0 - LOBES + 1;
      const isInside = firstX >= 0 && firstY >= 0 && firstX + TAPS <= widthPx && firstY + TAPS <= heightPx;
      let [red, green, blue] = [0, 0, 0];
      for (let j = 0; j < TAPS; j++) {
        const line = (isInside ? firstY + j : bounded(firstY + j, heightPx)) * widthPx;
        const weightDown = WEIGHTS[down + j] as number;
        for (let i = 0; i < TAPS; i++) {
          const weight = weightDown * (WEIGHTS[across + i] as number);
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
