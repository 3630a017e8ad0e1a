import { cornersOf, type Line, linesOf, SIDES } from "./lines.ts";
import type { Quad } from "./picture.ts";
import type { ReducedCopy } from "./reduced-copy.ts";

/** Where on the reduced copy to look for prints: a box of pixels, and the strip that shows the ground they lie on. */
export type Region = {
  readonly left: number;
  readonly top: number;
  readonly widthPx: number;
  readonly heightPx: number;
  /** for each pixel of the box, 1 when it lies inside the region */
  readonly inside: Uint8Array;
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
  const inside = new Uint8Array(widthPx * heightPx);
  const ring: number[] = [];
  const ringSide: number[] = [];
  const distances = [0, 0, 0, 0];
  for (let row = 0, place = 0; row < heightPx; row++) {
    for (let column = 0; column < widthPx; column++, place++) {
      const x = left + column;
      const y = top + row;
      for (let side = 0; side < 4; side++) {
        const line = lines[side] as Line;
        distances[side] = line.nx * x + line.ny * y + line.d;
      }
      const nearest = Math.min(distances[0] as number, distances[1] as number, distances[2] as number, distances[3] as number);
      if (nearest < insetPx) continue;
      inside[place] = 1;
      if (nearest > insetPx + ringPx) continue;
      ring.push(y * copy.widthPx + x);
      ringSide.push(distances.indexOf(nearest));
    }
  }
  return { left, top, widthPx, heightPx, inside, ring: Int32Array.from(ring), ringSide: Uint8Array.from(ringSide) };
}

const clamp = (value: number, size: number) => Math.min(size - 1, Math.max(0, Math.round(value)));

export const wholeCopy = (copy: ReducedCopy): Quad => ({
  topLeft: { x: -0.5, y: -0.5 },
  topRight: { x: copy.widthPx - 0.5, y: -0.5 },
  bottomRight: { x: copy.widthPx - 0.5, y: copy.heightPx - 0.5 },
  bottomLeft: { x: -0.5, y: copy.heightPx - 0.5 },
});
