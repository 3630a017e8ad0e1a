import { isFrameSide, laidOnFrame } from "../frame.ts";
import { bowOf, isOfLens, lensFrom } from "../geometry/lens.ts";
import { distanceTo, eachSide, endsOf, type Line, lengthOf, linesOf, quadOfLines, SIDES, type Side } from "../lines.ts";
import type { Picture, Point, Quad } from "../picture.ts";
import type { Outline } from "../reading.ts";
import { doubtedSides, doubting } from "./doubted-sides.ts";
import { refineFaintLine } from "./outline-faint-refine.ts";
import { cornerSpread, type RefinedQuad, refineQuad } from "./outline-refine.ts";
import type { Rectangle } from "./rectangle.ts";
import { type ReducedCopy, toFull } from "./reduced-copy.ts";
import { linearSampler } from "./samplers.ts";
import type { Search } from "./search.ts";
import { squareUp } from "./square-up.ts";

/** The outline of a print whose sheet was found on the reduced copy, with its picture where that was found. */
export function outlineFromSheet(search: Search, sheet: Rectangle, image: Rectangle | null): Outline {
  const { picture, copy, context } = search;
  const inside = image && refineRectangle(picture, copy, cutAlike(sheet, image));
  const { refined, faint } = withFaintSides(
    picture,
    sheet,
    squared(picture, refineRectangle(picture, copy, sheet), inside),
    inside?.quad ?? null,
  );
  const seenImage = inside && SIDES.filter((side) => inside.edges[side]).length >= 2 ? inside.quad : null;
  const doubted = doubtedSides(refined, seenImage, faint, context);
  const outline: Outline = {
    sheet: refined.quad,
    image: seenImage,
    cornerSpreadPx: spreadOf(picture, copy, refined, faint, doubted),
    sides: sidesOf(picture, refined),
    ...radialOf(picture, refined),
  };
  const seen = [...doubted].filter((side) => outline.sides[side] === "seen");
  return doubting(outline, seen, 0);
}

/** A distortion is believed from so many times its own uncertainty on. */
const SURE = 4;

function radialOf(picture: Picture, { quad, edges }: RefinedQuad): Pick<Outline, "radial"> {
  // A faint side may be its own shadow's edge, which is not straight.
  const bows = SIDES.filter((side) => (edges[side]?.step ?? 0) > FAINT_STEP).flatMap((side) => bowOf(quad, edges[side], side));
  const fit = bows.length < 3 ? null : lensFrom(bows, picture);
  return fit && Math.abs(fit.radial) > SURE * fit.spread && isOfLens(fit, bows) ? { radial: fit.radial } : {};
}

/** A picture was looked for a little inside its sheet; where that brought it near a side which the frame cuts, the frame cuts it too. */
const NEAR_FRAME_PX = 6;

function cutAlike(sheet: Rectangle, image: Rectangle): Rectangle {
  const lines = linesOf(sheet.quad);
  const isCut = (side: Side) =>
    sheet.sides[side] === "frame" && endsOf(image.quad, side).every((end) => distanceTo(lines[side], end) < NEAR_FRAME_PX);
  const kind = (side: Side) => (isCut(side) ? "frame" : image.sides[side]);
  return { ...image, sides: { top: kind("top"), right: kind("right"), bottom: kind("bottom"), left: kind("left") } };
}

/** Sides that the reduced copy saw on the frame stay there. */
export function refineRectangle(picture: Picture, copy: ReducedCopy, { quad, sides, bowsPx }: Rectangle): RefinedQuad {
  const fixed = new Set(SIDES.filter((side) => sides[side] === "frame"));
  return refineQuad(picture, laidOnFrame(quadToFull(copy, quad), picture, fixed), copy.factor, {
    fixed,
    bowsPx: eachSide((side) => bowsPx[side] * copy.factor),
  });
}

/** A picture seen on all four sides shows how its sheet should lie. */
function squared(picture: Picture, sheet: RefinedQuad, image: RefinedQuad | null): RefinedQuad {
  if (!image || SIDES.some((side) => !image.edges[side])) return sheet;
  const squarer = squareUp(picture, sheet, image.quad);
  if (squarer === sheet) return sheet;
  const onFrame = new Set(SIDES.filter((side) => isFrameSide(sheet.quad, side, picture)));
  return refineQuad(picture, squarer.quad, 1.5, { fixed: onFrame, bowsPx: eachSide((side) => sheet.edges[side]?.bowPx ?? 0) });
}

/** Below this step in linear light the shadow beside a sheet may be stronger than the step from ground to paper. */
const FAINT_STEP = 0.12;
const PLAIN = 0.85;
/** L* of paper and of a scanner's white lid, and how near they come; a shadow between them is then deeper than their step. */
const BRIGHT = 75;
const ALIKE = 12;

/** The sides, and which of them are faint. */
type WithFaint = { readonly refined: RefinedQuad; readonly faint: ReadonlySet<Side> };

/** Where paper and ground are both plain and much alike, a side is placed block by block, before its shadow. */
function withFaintSides(picture: Picture, { margin, around }: Rectangle, refined: RefinedQuad, image: Quad | null): WithFaint {
  if (margin.plain < PLAIN || around.plain < PLAIN) return { refined, faint: new Set() };
  const isLid = Math.min(margin.lightness, around.lightness) > BRIGHT && Math.abs(margin.lightness - around.lightness) < ALIKE;
  const sample = linearSampler(picture);
  const lines = { ...linesOf(refined.quad) };
  const edges = { ...refined.edges };
  const faint = new Set<Side>();
  for (const side of SIDES) {
    if (isFrameSide(refined.quad, side, picture) || ((edges[side]?.step ?? 0) > FAINT_STEP && !isLid)) continue;
    const found = refineFaintLine(sample, ...endsOf(refined.quad, side), image ? borderPx(lines[side], image, side) : undefined);
    if (!found) continue;
    lines[side] = found.line;
    edges[side] = found;
    faint.add(side);
  }
  const quad = quadOfLines(lines);
  return quad ? { refined: { quad, edges }, faint } : { refined, faint: new Set() };
}

const borderPx = (line: Line, image: Quad, side: Side) => Math.min(...endsOf(image, side).map((end) => distanceTo(line, end)));

function sidesOf(picture: Picture, { quad, edges }: RefinedQuad): Outline["sides"] {
  const kind = (side: Side) => {
    if (isFrameSide(quad, side, picture) || !endsOf(quad, side).every((end) => isInFrame(picture, end))) return "cut-off";
    return edges[side] ? "seen" : "assumed";
  };
  return { top: kind("top"), right: kind("right"), bottom: kind("bottom"), left: kind("left") };
}

/** On drawn white lids with soft shadows, as shares of a side: how far a faint side is off, and one that is doubted. */
const FAINT_SHARE = 0.001;
const DOUBTED_SHARE = 0.007;

/** A side that was not seen keeps the line of a patch, which may have swallowed some of the ground, as a share of the side. */
const UNSEEN_SHARE = 0.04;
/** Where fewer profiles than this agree, the others see another line beside it: so many px more for each share of them. Own. */
const ALL_BUT_SURE = 0.9;
const PX_FOR_SHARE = 10;

function spreadOf(
  picture: Picture,
  copy: ReducedCopy,
  { quad, edges }: RefinedQuad,
  faint: ReadonlySet<Side>,
  doubted: ReadonlySet<Side>,
): number {
  const onFrame = { fromSpreadPx: 0, toSpreadPx: 0 };
  const spreads = SIDES.map((side) => {
    const edge = edges[side];
    if (isFrameSide(quad, side, picture)) return onFrame;
    const leastPx = doubted.has(side) ? DOUBTED_SHARE * lengthOf(quad, side) : faint.has(side) ? FAINT_SHARE * lengthOf(quad, side) : 0;
    if (!edge) return { fromSpreadPx: UNSEEN_SHARE * lengthOf(quad, side), toSpreadPx: UNSEEN_SHARE * lengthOf(quad, side) };
    const astrayPx = faint.has(side) ? 0 : PX_FOR_SHARE * Math.max(0, ALL_BUT_SURE - edge.share);
    return {
      fromSpreadPx: Math.hypot(edge.fromSpreadPx, leastPx, astrayPx),
      toSpreadPx: Math.hypot(edge.toSpreadPx, leastPx, astrayPx),
    };
  });
  return cornerSpread(spreads, Math.max(1, copy.factor / 2));
}

const isInFrame = (picture: Picture, { x, y }: Point) =>
  x >= -0.5 && y >= -0.5 && x <= picture.widthPx - 0.5 && y <= picture.heightPx - 0.5;

const quadToFull = (copy: ReducedCopy, quad: Quad): Quad => ({
  topLeft: toFull(copy, quad.topLeft),
  topRight: toFull(copy, quad.topRight),
  bottomRight: toFull(copy, quad.bottomRight),
  bottomLeft: toFull(copy, quad.bottomLeft),
});
