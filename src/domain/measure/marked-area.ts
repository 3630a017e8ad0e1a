import { homographyFromMm, project } from "./homography.ts";
import { areaOf } from "./lines.ts";
import type { Point, Quad } from "./picture.ts";
import { contoursOf, type Loop } from "./planes/mask-contours.ts";
import type { Outline } from "./reading.ts";

/**
 * Where a measure found what it counts: loops in shares of the sheet, the picture or the frame, 0..1 from its top left
 * as seen. Patches run clockwise, holes the other way; filled by the even-odd rule.
 */
export type MarkedArea = { readonly of: "sheet" | "picture" | "frame"; readonly loops: readonly Loop[] };

export type FrameSize = { readonly widthPx: number; readonly heightPx: number };

/** More points than this are not kept: the mask is read on cells twice as wide until they suffice. */
const MOST_POINTS = 6000;
/** Shares are kept to a twentieth of a pixel of a frame of 5000. */
const DECIMALS = 5;

/**
 * The area that a mask (1 = in) covers. A mask with more edges than can be drawn loses its finest parts, never a patch.
 * @param span how many cells the whole is wide and high, where the last cells reach beyond it
 */
export function markedArea(of: MarkedArea["of"], mask: Uint8Array, columns: number, rows: number, span = { columns, rows }): MarkedArea {
  const loops = contoursOf(mask, columns, rows);
  const points = loops.reduce((sum, loop) => sum + loop.length, 0);
  if (points > MOST_POINTS) {
    const [wide, high] = [Math.ceil(columns / 2), Math.ceil(rows / 2)];
    return markedArea(of, halved(mask, columns, wide, high), wide, high, { columns: span.columns / 2, rows: span.rows / 2 });
  }
  const share = (at: number, cells: number) => Math.min(1, Number((at / cells).toFixed(DECIMALS)));
  return { of, loops: loops.map((loop) => loop.map(({ x, y }) => ({ x: share(x, span.columns), y: share(y, span.rows) }))) };
}

/** Cells of 2 × 2, in where any of the four is. */
function halved(mask: Uint8Array, columns: number, wide: number, high: number): Uint8Array {
  const coarse = new Uint8Array(wide * high);
  mask.forEach((value, at) => {
    if (value === 1) coarse[(Math.floor(at / columns) >> 1) * wide + ((at % columns) >> 1)] = 1;
  });
  return coarse;
}

/** The loops of areas in pixels of the frame. Areas of sheet or picture are left out where there is no outline. */
export function loopsInFrame(areas: readonly MarkedArea[], outline: Outline | null, frame: FrameSize): Loop[] {
  return areas.flatMap(({ of, loops }) => {
    const quad = of === "frame" ? wholeFrame(frame) : of === "picture" ? (outline?.image ?? outline?.sheet) : outline?.sheet;
    if (!quad) return [];
    const map = homographyFromMm(1, 1, quad);
    return loops.map((loop) => loop.map(({ x, y }) => project(map, x, y)));
  });
}

/** Pixel centres have whole coordinates, so the frame begins half a pixel earlier. */
const wholeFrame = ({ widthPx, heightPx }: FrameSize): Quad => ({
  topLeft: { x: -0.5, y: -0.5 },
  topRight: { x: widthPx - 0.5, y: -0.5 },
  bottomRight: { x: widthPx - 0.5, y: heightPx - 0.5 },
  bottomLeft: { x: -0.5, y: heightPx - 0.5 },
});

/** Loops of patches, without those of the holes in them. */
export const patchLoops = (loops: readonly Loop[]): Loop[] => loops.filter((loop) => areaOf(loop) > 0);

/** 255 at each pixel of the frame whose centre lies within the loops by the even-odd rule, 0 elsewhere. */
export function maskOfLoops(loops: readonly Loop[], { widthPx, heightPx }: FrameSize): Uint8Array {
  const mask = new Uint8Array(widthPx * heightPx);
  const crossings = crossingsByRow(loops, heightPx);
  crossings.forEach((xs, y) => {
    const sorted = Float64Array.from(xs).sort();
    for (let k = 0; k + 1 < sorted.length; k += 2) {
      const from = Math.max(0, Math.ceil(sorted[k] as number));
      const to = Math.min(widthPx - 1, Math.floor(sorted[k + 1] as number));
      if (to >= from) mask.fill(255, y * widthPx + from, y * widthPx + to + 1);
    }
  });
  return mask;
}

/** Where the loops cross the middle of each row of pixels. */
function crossingsByRow(loops: readonly Loop[], heightPx: number): Map<number, number[]> {
  const rows = new Map<number, number[]>();
  for (const loop of loops) {
    loop.forEach((from, index) => {
      const to = loop[(index + 1) % loop.length] as Point;
      const [upper, lower] = from.y < to.y ? [from, to] : [to, from];
      // half open, so that a corner on a row is met once
      for (let y = Math.max(0, Math.ceil(upper.y)); y < lower.y && y < heightPx; y++) {
        const x = upper.x + ((y - upper.y) / (lower.y - upper.y)) * (lower.x - upper.x);
        const row = rows.get(y);
        if (row) row.push(x);
        else rows.set(y, [x]);
      }
    });
  }
  return rows;
}
