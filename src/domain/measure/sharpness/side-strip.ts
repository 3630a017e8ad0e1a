import { isUpright, type Side } from "../lines.ts";
import type { Picture, Point } from "../picture.ts";
import type { EdgeStrip } from "./edge-places.ts";

/** Part of a side that is read: rounded corners and the neighbouring sides stay away. */
const MIDDLE_SHARE = 0.76;

/** Which pixels a strip holds, before any is read. */
export type StripPlace = Omit<EdgeStrip, "data"> & {
  /** px down the side (for upper and lower sides: across) at which its first row lies */
  readonly first: number;
};

/** A strip that knows where it lies. */
export type SideStrip = EdgeStrip & StripPlace;

/**
 * Raw pixels along a side, in linear light, `halfPx` to both sides of its line. Upper and lower sides are
 * transposed, so that every strip holds one nearly upright edge. Null when less than half the side lies in the frame.
 * @param weights of R, G, B in what is read; luminance unless told
 */
export function sideStrip(
  picture: Picture,
  side: Side,
  from: Point,
  to: Point,
  halfPx: number,
  weights: Weights = luminanceWeights(picture),
): SideStrip | null {
  const place = stripPlace(picture, side, from, to, halfPx);
  return place && { ...place, data: lightAlong(picture, weights, isUpright(side), place) };
}

/** Where `sideStrip` lies; null as it is. */
export function stripPlace(
  picture: Pick<Picture, "widthPx" | "heightPx">,
  side: Side,
  from: Point,
  to: Point,
  halfPx: number,
): StripPlace | null {
  const upright = isUpright(side);
  const [a, b] = upright ? [from, to] : [transposed(from), transposed(to)];
  const [start, end] = a.y < b.y ? [a, b] : [b, a];
  const length = end.y - start.y;
  const margin = (length * (1 - MIDDLE_SHARE)) / 2;
  const [columns, lines] = upright ? [picture.widthPx, picture.heightPx] : [picture.heightPx, picture.widthPx];
  const lean = (end.x - start.x) / length;
  const firstColumn = (row: number) => columnAt(start, lean, row) - halfPx;
  const isInside = (row: number) => row >= 0 && row < lines && firstColumn(row) >= 0 && firstColumn(row) + 2 * halfPx <= columns;
  let first = Math.ceil(start.y + margin);
  let last = Math.floor(end.y - margin);
  while (first <= last && !isInside(first)) first++;
  while (last >= first && !isInside(last)) last--;
  const rows = last - first + 1;
  if (!(rows >= (length * MIDDLE_SHARE) / 2)) return null;
  const startPx = new Int32Array(rows);
  for (let row = 0; row < rows; row++) startPx[row] = columnAt(start, lean, first + row) - halfPx;
  return { first, rows, widthPx: 2 * halfPx, startPx };
}

const columnAt = (start: Point, lean: number, row: number) => Math.round(start.x + lean * (row - start.y));

const transposed = ({ x, y }: Point): Point => ({ x: y, y: x });

export type Weights = readonly [red: number, green: number, blue: number];

export const luminanceWeights = ({ toXyzD50 }: Picture): Weights => [toXyzD50[3] as number, toXyzD50[4] as number, toXyzD50[5] as number];

function lightAlong(picture: Picture, [r, g, b]: Weights, upright: boolean, { first, startPx, widthPx }: StripPlace): Float32Array {
  const { codes, linearOf } = picture;
  const [red, green, blue] = linearOf;
  const data = new Float32Array(startPx.length * widthPx);
  const stepAlongRow = upright ? 3 : 3 * picture.widthPx;
  const stepDown = upright ? 3 * picture.widthPx : 3;
  const only = [r, g, b].indexOf(1);
  if (only !== -1 && r + g + b === 1) {
    const table = linearOf[only] as Float32Array;
    for (let row = 0, into = 0; row < startPx.length; row++) {
      let at = (first + row) * stepDown + (startPx[row] as number) * stepAlongRow + only;
      for (let k = 0; k < widthPx; k++, at += stepAlongRow) data[into++] = table[codes[at] as number] as number;
    }
    return data;
  }
  let into = 0;
  for (let row = 0; row < startPx.length; row++) {
    let at = (first + row) * stepDown + (startPx[row] as number) * stepAlongRow;
    for (let k = 0; k < widthPx; k++, at += stepAlongRow) {
      data[into++] =
        r * (red[codes[at] as number] as number) +
        g * (green[codes[at + 1] as number] as number) +
        b * (blue[codes[at + 2] as number] as number);
    }
  }
  return data;
}
