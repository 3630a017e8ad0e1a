import type { Border } from "./border.ts";
import { type FrameAxis, SIDES_OF, zoneAt } from "./border-profiles.ts";
import type { GridPlane } from "./grid-plane.ts";
import { distanceTo, type Side } from "./lines.ts";
import type { Picture, Point } from "./picture.ts";

/** One side's border as a rectangle of cells that lie as the frame's pixels do; along the side runs x. */
export type BorderStrip = {
  readonly side: Side;
  /** ln of the light in green, which carries most of the luminance; NaN beside the border */
  readonly plane: GridPlane;
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
  const zones = Array.from({ length: columns }, (_, column) => {
    const zone = zoneAt(border, axis, side, column * factor + (factor - 1) / 2);
    const isIn = isAlong(border, axis, column * factor, zone) && zone.from >= 0 && zone.to < depth;
    return isIn ? { from: Math.ceil(zone.from / factor), to: Math.floor((zone.to + 1) / factor) - 1 } : { from: 1, to: 0 };
  });
  const kept = zones.flatMap(({ from, to }, column) => (to >= from ? [{ column, from, to }] : []));
  const [start, end] = [kept[0], kept.at(-1)];
  if (!start || !end) return null;
  const top = kept.reduce((least, { from }) => Math.min(least, from), Number.POSITIVE_INFINITY);
  const bottom = kept.reduce((most, { to }) => Math.max(most, to), 0);
  const [width, height] = [end.column - start.column + 1, bottom - top + 1];
  const data = new Float32Array(width * height).fill(Number.NaN);
  const { codes, widthPx } = picture;
  const green = picture.linearOf[1];
  const [stepAlong, stepDown] = axis === "columns" ? [3, 3 * widthPx] : [3 * widthPx, 3];
  for (const { column, from, to } of kept) {
    for (let row = from; row <= to; row++) {
      const corner = column * factor * stepAlong + row * factor * stepDown + 1;
      let sum = 0;
      for (let j = 0; j < factor; j++)
        for (let i = 0; i < factor; i++) sum += green[codes[corner + i * stepAlong + j * stepDown] as number] as number;
      data[(row - top) * width + column - start.column] = Math.log(Math.max(1e-4, sum / factor ** 2));
    }
  }
  const toFrame = (x: number, y: number): Point => {
    const along = (x + start.column) * factor + (factor - 1) / 2;
    const down = (y + top) * factor + (factor - 1) / 2;
    return axis === "columns" ? { x: along, y: down } : { x: down, y: along };
  };
  return { side, plane: { width, height, data }, toFrame };
}

/** Upper and lower borders end a little before the sheet's corners, the others where the picture ends. */
function isAlong({ sheet, image, guardPx }: Border, axis: FrameAxis, at: number, zone: { from: number; to: number }): boolean {
  const places = [zone.from, zone.to].map((down) => (axis === "columns" ? { x: at, y: down } : { x: down, y: at }));
  const lines = axis === "columns" ? [sheet.left, sheet.right] : [image.top, image.bottom];
  const least = axis === "columns" ? 3 * guardPx : guardPx;
  return lines.every((line) => places.every((place) => distanceTo(line, place) > least));
}
