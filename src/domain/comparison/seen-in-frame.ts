import type { Region } from "../capture/capture.ts";
import type { Point } from "../measure/picture.ts";
import type { SizeMm } from "../measure/size-as-seen.ts";

/** Writes where a place of the sheet (mm from the print's own top left) is in the frame, px. */
export type PlaceOnSheet = (xMm: number, yMm: number, into: { x: number; y: number }) => void;

export function placed(placeOf: PlaceOnSheet, xMm: number, yMm: number): Point {
  const into = { x: 0, y: 0 };
  placeOf(xMm, yMm, into);
  return into;
}

/** Pixels to the mm where the capture is finest: a camera that looked on from one side shows the near side finer. */
export function finestPxPerMm(placeOf: PlaceOnSheet, { widthMm, heightMm }: SizeMm): number {
  const across = [0.1, 0.5, 0.9].flatMap((u) => [0.1, 0.5, 0.9].map((v) => [u * widthMm, v * heightMm] as const));
  return Math.max(
    ...across.map(([x, y]) => {
      const [here, right, below] = [placed(placeOf, x, y), placed(placeOf, x + 1, y), placed(placeOf, x, y + 1)];
      return Math.max(Math.hypot(right.x - here.x, right.y - here.y), Math.hypot(below.x - here.x, below.y - here.y));
    }),
  );
}

/** A rectangle of the sheet's plane, mm. */
export type PartOfSheet = { readonly left: number; readonly top: number; readonly right: number; readonly bottom: number };

/** Between two of so many steps a bow rises by a 256th of itself at the most. */
const STEPS_ALONG_SIDE = 16;

/**
 * The part of a frame that shows a rectangle of the sheet, px of the frame. Looked at all along its sides, since a lens may bow them outwards
 * farther than the corners lie.
 * @param roomPx kept round it, for what is sampled beyond its edge
 */
export function partOfFrame(
  placeOf: PlaceOnSheet,
  { left, top, right, bottom }: PartOfSheet,
  frame: { readonly width: number; readonly height: number },
  roomPx = 0,
): Region {
  const shares = Array.from({ length: STEPS_ALONG_SIDE + 1 }, (_, step) => step / STEPS_ALONG_SIDE);
  const along = shares.flatMap((share) => {
    const [x, y] = [left + share * (right - left), top + share * (bottom - top)];
    return [placed(placeOf, x, top), placed(placeOf, x, bottom), placed(placeOf, left, y), placed(placeOf, right, y)];
  });
  const span = (values: readonly number[], length: number) => {
    const from = Math.min(length - 1, Math.max(0, Math.floor(Math.min(...values) - roomPx)));
    return [from, Math.max(1, Math.min(length, Math.ceil(Math.max(...values) + roomPx) + 1) - from)] as const;
  };
  const [x, width] = span(
    along.map((place) => place.x),
    frame.width,
  );
  const [y, height] = span(
    along.map((place) => place.y),
    frame.height,
  );
  return { left: x, top: y, width, height };
}
