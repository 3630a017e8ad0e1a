import { cornersOf, type Line, linesOf, SIDES } from "../lines.ts";
import type { Quad } from "../picture.ts";
import { pixelsIn, type RowSpans, spansInside, spansWithout } from "../planes/row-spans.ts";
import type { ReducedCopy } from "./reduced-copy.ts";

/** Where on the reduced copy to look for prints: a box of pixels, and the strip that shows the ground they lie on. */
export type Region = {
  readonly left: number;
  readonly top: number;
  readonly widthPx: number;
  readonly heightPx: number;
  /** what lies inside the region, for each row of the copy */
  readonly spans: RowSpans;
  /** places in the copy of the strip along the region's sides, and the side (0 top, 1 right, 2 bottom, 3 left) of each */
  readonly ring: Int32Array;
  readonly ringSide: Uint8Array;
};

/** Width of the strip, as a share of the shorter side. */
const RING_SHARE = 0.02;

/** The inside of a quad of the copy, `insetPx` away from its sides; the whole copy is a quad too. */
export function regionOf(copy: ReducedCopy, quad: Quad, insetPx: number, ringShare = RING_SHARE): Region {
  const corners = cornersOf(quad);
  const lines = SIDES.map((side) => linesOf(quad)[side]);
  const left = clamp(Math.min(...corners.map((corner) => corner.x)), copy.widthPx);
  const top = clamp(Math.min(...corners.map((corner) => corner.y)), copy.heightPx);
  const widthPx = clamp(Math.max(...corners.map((corner) => corner.x)), copy.widthPx) - left + 1;
  const heightPx = clamp(Math.max(...corners.map((corner) => corner.y)), copy.heightPx) - top + 1;
  const ringPx = Math.max(2, ringShare * Math.min(widthPx, heightPx));
  const spans = spansInside(linesOf(quad), insetPx, copy.widthPx, copy.heightPx);
  const ringSpans = spansWithout(spans, spansInside(linesOf(quad), insetPx + ringPx + JUST_MORE, copy.widthPx, copy.heightPx));
  const ring = new Int32Array(pixelsIn(ringSpans));
  const ringSide = new Uint8Array(ring.length);
  let count = 0;
  for (let y = 0; y < ringSpans.length; y++) {
    const span = ringSpans[y] as readonly number[];
    for (let k = 0; k < span.length; k += 2) {
      for (let x = span[k] as number; x <= (span[k + 1] as number); x++) {
        ring[count] = y * copy.widthPx + x;
        ringSide[count++] = nearestOf(lines, x, y);
      }
    }
  }
  return { left, top, widthPx, heightPx, spans, ring, ringSide };
}

/** What lies just as far inside as the ring is wide belongs to it. */
const JUST_MORE = 1e-9;

function nearestOf(lines: readonly Line[], x: number, y: number): number {
  let nearest = Number.POSITIVE_INFINITY;
  let found = 0;
  for (let side = 0; side < 4; side++) {
    const { nx, ny, d } = lines[side] as Line;
    const distance = nx * x + ny * y + d;
    if (distance >= nearest) continue;
    nearest = distance;
    found = side;
  }
  return found;
}

const clamp = (value: number, size: number) => Math.min(size - 1, Math.max(0, Math.round(value)));

export const wholeCopy = (copy: ReducedCopy): Quad => ({
  topLeft: { x: -0.5, y: -0.5 },
  topRight: { x: copy.widthPx - 0.5, y: -0.5 },
  bottomRight: { x: copy.widthPx - 0.5, y: copy.heightPx - 0.5 },
  bottomLeft: { x: -0.5, y: copy.heightPx - 0.5 },
});
