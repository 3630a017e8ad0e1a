import { z } from "zod";
import { homographyFromMm, project } from "./homography.ts";
import { cornersOf, distanceTo, linesOf, quadOf } from "./lines.ts";
import type { Quad } from "./picture.ts";
import { isPresent, type Outline, type Reading } from "./reading.ts";

const share = z.number();
const marked = z.object({
  of: z.enum(["sheet", "picture"]),
  places: z.array(z.object({ left: share, top: share, width: share, height: share })),
});

/**
 * Where in the upright frame a reading found what it counts, as a mask of the frame: 255 inside the four-sided boxes
 * round its places, 0 elsewhere. Null where the reading marks no places.
 */
export function maskOfPlaces(reading: Reading, outline: Outline, widthPx: number, heightPx: number): Uint8Array | null {
  const read = isPresent(reading) ? marked.safeParse(reading.detail) : null;
  if (!read?.success || read.data.places.length === 0) return null;
  const quad = read.data.of === "picture" ? (outline.image ?? outline.sheet) : outline.sheet;
  const map = homographyFromMm(1, 1, quad);
  const mask = new Uint8Array(widthPx * heightPx);
  for (const { left, top, width, height } of read.data.places) {
    const corners = [
      project(map, left, top),
      project(map, left + width, top),
      project(map, left + width, top + height),
      project(map, left, top + height),
    ] as const;
    fill(mask, widthPx, heightPx, quadOf(corners));
  }
  return mask;
}

function fill(mask: Uint8Array, widthPx: number, heightPx: number, box: Quad): void {
  const corners = cornersOf(box);
  const lines = Object.values(linesOf(box));
  const [left, right] = within(
    corners.map(({ x }) => x),
    widthPx,
  );
  const [top, bottom] = within(
    corners.map(({ y }) => y),
    heightPx,
  );
  for (let y = top; y <= bottom; y++)
    for (let x = left; x <= right; x++) if (lines.every((line) => distanceTo(line, { x, y }) >= 0)) mask[y * widthPx + x] = 255;
}

const within = (values: readonly number[], length: number): [number, number] => [
  Math.max(0, Math.floor(Math.min(...values))),
  Math.min(length - 1, Math.ceil(Math.max(...values))),
];
