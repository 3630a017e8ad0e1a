import { distanceTo, type Side } from "../lines.ts";
import type { Picture, Point } from "../picture.ts";
import type { GridPlane } from "../planes/grid-plane.ts";
import type { Border } from "./border.ts";
import { type FrameAxis, SIDES_OF, zoneAt } from "./border-profiles.ts";

/** One side's border as a rectangle of cells that lie as the frame's pixels do; along the side runs x. */
export type BorderStrip = {
  readonly side: Side;
  /** ln of the light in green, which carries most of the luminance; NaN beside the border */
  readonly plane: GridPlane;
  /** how many cells lie on the border */
  readonly cells: number;
  readonly toFrame: (x: number, y: number) => Point;
};

/** Means of `factor` × `factor` px of every side's border, guards kept; corners belong to the upper and lower side. */
export function borderStrips(picture: Picture, border: Border, factor: number): BorderStrip[] {
  return (["columns", "rows"] as const).flatMap((axis) =>
    SIDES_OF[axis].flatMap((side) => (border.sides.includes(side) ? (stripOf(picture, border, axis, side, factor) ?? []) : [])),
  );
}

function stripOf(picture: Picture, border: Border, axis: FrameAxis, side: Side, factor: number): BorderStrip | null {
  const [length, depth] = axis === "columns" ? [picture.widthPx, picture.heightPx] : [picture.heightPx, picture.widthPx];
  const columns = Math.floor(length / factor);
  const firstRow = new Int32Array(columns).fill(1);
  const lastRow = new Int32Array(columns);
  let [start, end, top, bottom, cells] = [columns, -1, Number.POSITIVE_INFINITY, -1, 0];
  for (let column = 0; column < columns; column++) {
    const zone = zoneAt(border, axis, side, column * factor + (factor - 1) / 2);
    const from = Math.ceil(zone.from / factor);
    const to = Math.floor((zone.to + 1) / factor) - 1;
    if (to < from || zone.from < 0 || zone.to >= depth || !isAlong(border, axis, column * factor, zone)) continue;
    firstRow[column] = from;
    lastRow[column] = to;
    start = Math.min(start, column);
    end = column;
    top = Math.min(top, from);
    bottom = Math.max(bottom, to);
    cells += to - from + 1;
  }
  if (cells === 0) return null;
  const [width, height] = [end - start + 1, bottom - top + 1];
  const data = new Float32Array(width * height).fill(Number.NaN);
  const { codes, widthPx } = picture;
  const green = picture.linearOf[1];
  const [stepAlong, stepDown] = axis === "columns" ? [3, 3 * widthPx] : [3 * widthPx, 3];
  const lnOf = factor === 1 ? green.map(ln) : null;
  // row by row of the frame, as its pixels lie in memory
  const isAcross = axis === "columns";
  const [firstOuter, lastOuter, firstInner, lastInner] = isAcross ? [top, bottom, start, end] : [start, end, top, bottom];
  for (let outer = firstOuter; outer <= lastOuter; outer++) {
    for (let inner = firstInner; inner <= lastInner; inner++) {
      const column = isAcross ? inner : outer;
      const row = isAcross ? outer : inner;
      if (row < (firstRow[column] as number) || row > (lastRow[column] as number)) continue;
      const corner = column * factor * stepAlong + row * factor * stepDown + 1;
      const into = (row - top) * width + column - start;
      if (lnOf) {
        data[into] = lnOf[codes[corner] as number] as number;
        continue;
      }
      let sum = 0;
      for (let j = 0; j < factor; j++)
        for (let i = 0; i < factor; i++) sum += green[codes[corner + i * stepAlong + j * stepDown] as number] as number;
      data[into] = ln(sum / factor ** 2);
    }
  }
  const toFrame = (x: number, y: number): Point => {
    const along = (x + start) * factor + (factor - 1) / 2;
    const down = (y + top) * factor + (factor - 1) / 2;
    return axis === "columns" ? { x: along, y: down } : { x: down, y: along };
  };
  return { side, plane: { width, height, data }, cells, toFrame };
}

const ln = (light: number) => Math.log(Math.max(1e-4, light));

/** Upper and lower borders end a little before the sheet's corners, the others where the picture ends. */
function isAlong({ sheet, image, guardPx }: Border, axis: FrameAxis, at: number, zone: { from: number; to: number }): boolean {
  const places = [zone.from, zone.to].map((down) => (axis === "columns" ? { x: at, y: down } : { x: down, y: at }));
  const lines = axis === "columns" ? [sheet.left, sheet.right] : [image.top, image.bottom];
  const least = axis === "columns" ? 3 * guardPx : guardPx;
  return lines.every((line) => places.every((place) => distanceTo(line, place) > least));
}
