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

/**
 * The part of a frame that shows a rectangle of the sheet, px of the frame.
 * @param roomPx kept round it, for what is sampled beyond its edge and for sides that a lens bows outwards
 */
export function partOfFrame(
  placeOf: PlaceOnSheet,
  { left, top, right, bottom }: PartOfSheet,
  frame: { readonly width: number; readonly height: number },
  roomPx = 0,
): Region {
  const corners = [placed(placeOf, left, top), placed(placeOf, right, top), placed(placeOf, right, bottom), placed(placeOf, left, bottom)];
  const span = (values: readonly number[], length: number) => {
    const from = Math.min(length - 1, Math.max(0, Math.floor(Math.min(...values) - roomPx)));
    return [from, Math.max(1, Math.min(length, Math.ceil(Math.max(...values) + roomPx) + 1) - from)] as const;
  };
  const [x, width] = span(
    corners.map((corner) => corner.x),
    frame.width,
  );
  const [y, height] = span(
    corners.map((corner) => corner.y),
    frame.height,
  );
  return { left: x, top: y, width, height };
}
