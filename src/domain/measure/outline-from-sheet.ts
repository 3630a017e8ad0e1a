import { isFrameSide, laidOnFrame } from "./frame.ts";
import { endsOf, SIDES, type Side } from "./lines.ts";
import { cornerSpread, type RefinedQuad, refineQuad } from "./outline-refine.ts";
import type { Picture, Point, Quad } from "./picture.ts";
import type { Outline } from "./reading.ts";
import type { Rectangle } from "./rectangle.ts";
import { type ReducedCopy, toFull } from "./reduced-copy.ts";
import type { Search } from "./search.ts";

/** The outline of a print whose sheet was found on the reduced copy, with its picture where that was found. */
export function outlineFromSheet({ picture, copy }: Search, sheet: Rectangle, image: Rectangle | null): Outline {
  const refined = refineRectangle(picture, copy, sheet);
  const inside = image && refineRectangle(picture, copy, image);
  return {
    sheet: refined.quad,
    image: inside && SIDES.filter((side) => inside.edges[side]).length >= 2 ? inside.quad : null,
    cornerSpreadPx: spreadOf(picture, copy, refined),
    sides: sidesOf(picture, refined),
  };
}

/** Sides that the reduced copy saw on the frame stay there. */
export function refineRectangle(picture: Picture, copy: ReducedCopy, { quad, sides }: Rectangle): RefinedQuad {
  const fixed = new Set(SIDES.filter((side) => sides[side] === "frame"));
  return refineQuad(picture, laidOnFrame(quadToFull(copy, quad), picture, fixed), copy.factor, fixed);
}

function sidesOf(picture: Picture, { quad, edges }: RefinedQuad): Outline["sides"] {
  const kind = (side: Side) => {
    if (isFrameSide(quad, side, picture) || !endsOf(quad, side).every((end) => isInFrame(picture, end))) return "cut-off";
    return edges[side] ? "seen" : "assumed";
  };
  return { top: kind("top"), right: kind("right"), bottom: kind("bottom"), left: kind("left") };
}

/** A side that was not seen keeps the line of the reduced copy, good to about half a block. */
function spreadOf(picture: Picture, copy: ReducedCopy, { quad, edges }: RefinedQuad): number {
  const onFrame = { fromSpreadPx: 0, toSpreadPx: 0 };
  return cornerSpread(
    SIDES.map((side) => (isFrameSide(quad, side, picture) ? onFrame : edges[side])),
    Math.max(1, copy.factor / 2),
  );
}

const isInFrame = (picture: Picture, { x, y }: Point) =>
  x >= -0.5 && y >= -0.5 && x <= picture.widthPx - 0.5 && y <= picture.heightPx - 0.5;

const quadToFull = (copy: ReducedCopy, quad: Quad): Quad => ({
  topLeft: toFull(copy, quad.topLeft),
  topRight: toFull(copy, quad.topRight),
  bottomRight: toFull(copy, quad.bottomRight),
  bottomLeft: toFull(copy, quad.bottomLeft),
});
