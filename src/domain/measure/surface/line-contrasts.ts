import type { FrameAxis } from "../border/border-profiles.ts";
import { luminanceAt, type Picture } from "../picture.ts";

/**
 * On each of the given rows (columns): mean ln Y over `core` px round a column (row) less that over as many px on each
 * side of it. Nothing where it does not lie in the frame.
 */
export function lineContrasts(picture: Picture, axis: FrameAxis, atPx: number, core: number, lines: readonly number[]): number[] {
  const breadth = axis === "columns" ? picture.widthPx : picture.heightPx;
  const [first, last] = [Math.round(atPx - 2 * core - 1), Math.round(atPx + 2 * core + 1)];
  if (first < 0 || last >= breadth) return [];
  return lines.map((line) => {
    let on = 0;
    let onCount = 0;
    let off = 0;
    let offCount = 0;
    for (let at = first; at <= last; at++) {
      const away = Math.abs(at - atPx);
      if (away > core / 2 + 0.5 && away <= core + 0.75) continue;
      const light = Math.log(Math.max(1e-3, axis === "columns" ? luminanceAt(picture, at, line) : luminanceAt(picture, line, at)));
      if (away <= core / 2 + 0.5) {
        on += light;
        onCount++;
      } else {
        off += light;
        offCount++;
      }
    }
    return on / onCount - off / offCount;
  });
}
