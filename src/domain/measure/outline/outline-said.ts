import { isFrameSide } from "../frame.ts";
import { cornersOf, eachSide, quadOf, SIDES } from "../lines.ts";
import type { Point, Quad } from "../picture.ts";
import type { Outline } from "../reading.ts";
import { refineRectangle } from "./outline-from-sheet.ts";
import { findImageInwards } from "./outline-image.ts";
import type { Search } from "./search.ts";

/** How well a corner is set by eye with a close-up at full resolution, px. Own estimate. */
const BY_EYE_PX = 2;

/** The outline that a person set: the sheet stays as it was said, the picture is looked for inside it. */
export function saidOutline({ picture, copy }: Search, sheet: Quad): Outline {
  const [a, b, c, d] = cornersOf(sheet).map((corner) => toCopy(copy.factor, corner)) as [Point, Point, Point, Point];
  const image = findImageInwards(copy, quadOf([a, b, c, d]));
  const refined = image && refineRectangle(picture, copy, image);
  return {
    sheet,
    image: refined && SIDES.filter((side) => refined.edges[side]).length >= 2 ? refined.quad : null,
    cornerSpreadPx: BY_EYE_PX,
    sides: eachSide((side) => (isFrameSide(sheet, side, picture) ? "cut-off" : "seen")),
    isSaid: true,
  };
}

/** The way back of toFull (reduced-copy.ts). */
const toCopy = (factor: number, { x, y }: Point): Point => ({ x: (x - (factor - 1) / 2) / factor, y: (y - (factor - 1) / 2) / factor });
