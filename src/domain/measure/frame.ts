import { cornersOf, distanceTo, endsOf, lengthOf, linesOf, quadOfLines, SIDES, type Side } from "./lines.ts";
import type { Picture, Quad } from "./picture.ts";
import type { Outline } from "./reading.ts";

/** The outer boundary of the frame's pixels. */
export const frameQuad = (picture: Pick<Picture, "widthPx" | "heightPx">): Quad => ({
  topLeft: { x: -0.5, y: -0.5 },
  topRight: { x: picture.widthPx - 0.5, y: -0.5 },
  bottomRight: { x: picture.widthPx - 0.5, y: picture.heightPx - 0.5 },
  bottomLeft: { x: -0.5, y: picture.heightPx - 0.5 },
});

/** The quad with some of its sides laid on the frame's. */
export function laidOnFrame(quad: Quad, picture: Picture, sides: ReadonlySet<Side>): Quad {
  const frame = linesOf(frameQuad(picture));
  const lines = { ...linesOf(quad) };
  for (const side of sides) lines[side] = frame[side];
  return quadOfLines(lines) ?? quad;
}

const ON_FRAME_PX = 0.01;

/** True when a side of an outline is the frame's own, so that where the print's side runs is not known. */
export function isFrameSide(quad: Quad, side: Side, picture: Pick<Picture, "widthPx" | "heightPx">): boolean {
  const ends = [SIDES.indexOf(side), (SIDES.indexOf(side) + 1) % 4].map((index) => cornersOf(quad)[index] ?? quad.topLeft);
  const edge = { top: -0.5, left: -0.5, right: picture.widthPx - 0.5, bottom: picture.heightPx - 0.5 }[side];
  return ends.every((end) => Math.abs((side === "top" || side === "bottom" ? end.y : end.x) - edge) < ON_FRAME_PX);
}

/** True for a file cropped to the sheet itself: no ground is left, and the frame stands for the sheet. */
export const fillsFrame = (outline: Outline, picture: Pick<Picture, "widthPx" | "heightPx">): boolean =>
  SIDES.every((side) => outline.sides[side] === "assumed" && isFrameSide(outline.sheet, side, picture));

/** Where the frame cuts the sheet, a side of the picture nearer than this to the cut may be the cut itself. */
const CLEAR_OF_CUT = 0.02;

/** The picture inside the border, unless the frame cuts it. */
export function wholeImage(
  outline: Pick<Outline, "sheet" | "image" | "sides">,
  picture: Pick<Picture, "widthPx" | "heightPx">,
): Quad | null {
  const { image, sheet } = outline;
  if (!image) return null;
  const frame = linesOf(frameQuad(picture));
  const isClear = (side: Side) =>
    !isFrameSide(sheet, side, picture) ||
    outline.sides[side] === "assumed" ||
    endsOf(image, side).every((end) => distanceTo(frame[side], end) > CLEAR_OF_CUT * lengthOf(image, side));
  return SIDES.every((side) => isClear(side) && !isFrameSide(image, side, picture)) ? image : null;
}
