import type { Line, Side } from "../lines.ts";
import type { Picture } from "../picture.ts";
import type { Border } from "./border.ts";

/** What lies along one direction of the frame: columns are what a line running down the frame falls into. */
export type FrameAxis = "columns" | "rows";

/** Light on two opposite borders, each averaged along the frame's own columns (or rows) without straightening. */
export type BorderProfiles = {
  readonly axis: FrameAxis;
  /** the column (row) of the first value */
  readonly firstPx: number;
  /** ln of the luminance Y on the top (left) and on the bottom (right) border, from `firstPx` on */
  readonly near: Float64Array;
  readonly far: Float64Array;
  /** px along the columns (rows) from the middle of one border to the middle of the other */
  readonly apartPx: number;
};

/** Each column of a border is read as blocks, whose trimmed mean leaves out dust and writing. */
const BLOCKS = 10;
const MOST_ROWS_OF_A_BLOCK = 5;
const FEWEST_ROWS = 3;
/** Rounded corners, px of guard. */
const CORNER_GUARDS = 3;
const SHORTEST_PX = 120;

/** The borders that a line along the frame's columns (rows) runs through. */
export const SIDES_OF = { columns: ["top", "bottom"], rows: ["left", "right"] } as const;

/** Null where the frame shows no border on one of the two sides, or too little of it. */
export function borderProfiles(picture: Picture, border: Border, axis: FrameAxis): BorderProfiles | null {
  const [nearSide, farSide] = SIDES_OF[axis];
  if (!border.sides.includes(nearSide) || !border.sides.includes(farSide)) return null;
  const near = profileOf(picture, border, axis, nearSide);
  const far = profileOf(picture, border, axis, farSide);
  const isRead = (index: number) => !Number.isNaN(near.values[index] as number) && !Number.isNaN(far.values[index] as number);
  let [from, to] = [0, near.values.length];
  while (from < to && !isRead(from)) from++;
  while (to > from && !isRead(to - 1)) to--;
  if (to - from < SHORTEST_PX) return null;
  for (let index = from; index < to; index++) if (!isRead(index)) return null;
  const middle = (from + to) >> 1;
  return {
    axis,
    firstPx: from,
    near: near.values.slice(from, to),
    far: far.values.slice(from, to),
    apartPx: (far.middles[middle] as number) - (near.middles[middle] as number),
  };
}

function profileOf(picture: Picture, border: Border, axis: FrameAxis, side: Side): { values: Float64Array; middles: Float64Array } {
  const { widthPx, heightPx } = picture;
  const [count, depth] = axis === "columns" ? [widthPx, heightPx] : [heightPx, widthPx];
  const values = new Float64Array(count).fill(Number.NaN);
  const middles = new Float64Array(count).fill(Number.NaN);
  const read = blockReader(picture, axis);
  const isNear = side === "top" || side === "left";
  const [one, other] = axis === "columns" ? [border.sheet.left, border.sheet.right] : [border.sheet.top, border.sheet.bottom];
  const clearPx = CORNER_GUARDS * border.guardPx;
  for (let at = 0; at < count; at++) {
    const { from, to } = zoneAt(border, axis, side, at);
    if (from < 0 || to >= depth || to - from + 1 < FEWEST_ROWS) continue;
    const outermost = isNear ? from : to;
    const x = axis === "columns" ? at : outermost;
    const y = axis === "columns" ? outermost : at;
    if (!(one.nx * x + one.ny * y + one.d > clearPx && other.nx * x + other.ny * y + other.d > clearPx)) continue;
    values[at] = Math.log(Math.max(1e-6, middleMean(read(at, from, to))));
    middles[at] = (from + to) / 2;
  }
  return { values, middles };
}

/** First and last row (column) of a border in one of the frame's columns (rows), guards kept; it may lie outside the frame. */
export function zoneAt(border: Border, axis: FrameAxis, side: Side, at: number): { from: number; to: number } {
  const outer = placeOn(border.sheet[side], axis, at, border.guardPx);
  const inner = placeOn(border.image[side], axis, at, -border.guardPx);
  const isNear = side === "top" || side === "left";
  return { from: Math.ceil(isNear ? outer : inner), to: Math.floor(isNear ? inner : outer) };
}

/** Where along a column (row) the distance to a line is `distance`. */
function placeOn({ nx, ny, d }: Line, axis: FrameAxis, at: number, distance: number): number {
  return axis === "columns" ? (distance - d - nx * at) / ny : (distance - d - ny * at) / nx;
}

/** Mean luminance of each block of a column (row), read on at most so many of its pixels; answered in the same array each time. */
function blockReader({ codes, widthPx, linearOf, toXyzD50 }: Picture, axis: FrameAxis) {
  const [red, green, blue] = linearOf;
  const [r, g, b] = [toXyzD50[3] as number, toXyzD50[4] as number, toXyzD50[5] as number];
  const [stepAt, stepDown] = axis === "columns" ? [3, 3 * widthPx] : [3 * widthPx, 3];
  const room = new Float64Array(BLOCKS);
  return (at: number, from: number, to: number): Float64Array => {
    const rows = to - from + 1;
    const blocks = rows < BLOCKS ? room.subarray(0, rows) : room;
    for (let block = 0; block < blocks.length; block++) {
      // whole in the engine too, as an index must be
      const first = (from + Math.floor((block * rows) / blocks.length)) | 0;
      const last = (from + Math.floor(((block + 1) * rows) / blocks.length)) | 0;
      const stride = Math.max(1, Math.floor((last - first) / MOST_ROWS_OF_A_BLOCK)) | 0;
      let sum = 0;
      let count = 0;
      for (let row = first; row < last; row += stride) {
        const place = at * stepAt + row * stepDown;
        sum +=
          r * (red[codes[place] as number] as number) +
          g * (green[codes[place + 1] as number] as number) +
          b * (blue[codes[place + 2] as number] as number);
        count++;
      }
      blocks[block] = sum / count;
    }
    return blocks;
  };
}

/** Mean without the lowest and the highest fifth; sorts its argument, by insertion, which is quickest for so few. */
function middleMean(blocks: Float64Array): number {
  for (let index = 1; index < blocks.length; index++) {
    const value = blocks[index] as number;
    let place = index;
    for (; place > 0 && (blocks[place - 1] as number) > value; place--) blocks[place] = blocks[place - 1] as number;
    blocks[place] = value;
  }
  const cut = Math.floor(blocks.length / 5);
  let sum = 0;
  for (let index = cut; index < blocks.length - cut; index++) sum += blocks[index] as number;
  return sum / (blocks.length - 2 * cut);
}

/** Words for a keeper. */
export const BORDERS_OF: Readonly<Record<FrameAxis, string>> = { columns: "upper and lower", rows: "left and right" };
