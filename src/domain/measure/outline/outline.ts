import { areaOf, centreOf, cornersOf, distanceTo, eachSide, endsOf, lengthOf, linesOf, SIDES } from "../lines.ts";
import type { Picture, Quad } from "../picture.ts";
import type { MeasureContext, Outline } from "../reading.ts";
import { disagreementOf, leastMisfit } from "../size-as-seen.ts";
import { doubting } from "./doubted-sides.ts";
import { doubtedByGrain } from "./grained-ground.ts";
import { doubtedByLines } from "./lines-running-on.ts";
import { findRectangles, findRectanglesInside } from "./outline-coarse.ts";
import { croppedOutline } from "./outline-cropped.ts";
import { outlineFromSheet } from "./outline-from-sheet.ts";
import { findImageInwards } from "./outline-image.ts";
import { liesInPicture } from "./outline-in-picture.ts";
import { outlineFromImage } from "./outline-on-white.ts";
import { findSheetOutwards } from "./outline-outwards.ts";
import { saidOutline } from "./outline-said.ts";
import { type TouchingSheet, touchingSheets } from "./outline-touching.ts";
import { LEAST_PAPER_LIGHTNESS } from "./paper-lightness.ts";
import { overlap, type Rectangle } from "./rectangle.ts";
import { type ReducedCopy, reducedCopy } from "./reduced-copy.ts";
import { wholeCopy } from "./region.ts";
import { meetsOthers } from "./room-beside.ts";
import { endsRunningOn } from "./runs-on.ts";
import { labSampler } from "./samplers.ts";
import type { Search } from "./search.ts";
import { type Strip, stripAlong } from "./strip.ts";

/** Frames smaller than this hold no print that could be measured. */
const LEAST_FRAME_PX = 48;

/**
 * Where the prints lie in the frame, in reading order; none when there is none to be told from its ground.
 *
 * Found on a reduced copy as rectangles that differ from what surrounds them, inside each other as board, sheet and
 * picture; which is which is told by the catalogued sizes and by the plain border. Then found again in the full picture
 * to a fraction of a pixel. Sizes of the context need not be those of every print on the bed: they break ties only.
 */
export function findOutlines(picture: Picture, context: MeasureContext): Outline[] {
  if (Math.min(picture.widthPx, picture.heightPx) < LEAST_FRAME_PX) return [];
  const search: Search = { picture, context, copy: reducedCopy(picture), beside: [] };
  if (context.saidSheet) return [saidOutline(search, context.saidSheet)];
  const rectangles = findRectangles(search.copy);
  const bed = rectangles.length > 1 ? stripAlong(labSampler(search.copy), wholeCopy(search.copy), BED_PX) : null;
  const likely = rectangles.flatMap((rectangle) => {
    const others = rectangles.filter((other) => other !== rectangle);
    const beside = others.map((other) => ({ quad: other.quad, isPictureAlone: isPictureAlone(search, other) }));
    return printsIn({ ...search, beside }, rectangle, 0, bed);
  });
  const found = likely.map((each) => doubtedByLines(search.copy, doubtedByGrain(search.copy, each, likely)));
  const fitting = found.some(({ sheet, image }) => fits(search, sheet) || (image && fits(search, image)));
  const whole = fitting ? null : croppedOutline(search, found.length > 0);
  const [only] = found;
  if (whole) return [whole];
  const inPicture = liesInPicture(search, found);
  const doubtable = found.map((each, index): Outline => (inPicture[index] ? { ...doubted(each), doubt: "in picture" } : each));
  if (only && found.length === 1 && isMisshapen(search, only)) return [doubted(doubtable[0] ?? only)];
  return inReadingOrder(doubtable);
}

/** Proportions so far from those of the catalogued sheet, as a share, are those of something else; nominal sizes and tilts explain less. Own. */
const MISSHAPEN = 0.15;

/** Seen whole, and neither the sheet nor the picture of the record by its proportions. */
const isMisshapen = ({ context }: Search, { sheet, sides }: Outline) =>
  context.sheetWidthMm !== null &&
  !Object.values(sides).includes("cut-off") &&
  leastMisfit(sheet, context.sheetWidthMm, context.sheetHeightMm) > MISSHAPEN &&
  !(leastMisfit(sheet, context.imageWidthMm, context.imageHeightMm) < MISSHAPEN);

/** Has the proportions of the catalogued sheet or picture. */
const fits = ({ context }: Search, quad: Quad) =>
  leastMisfit(quad, context.sheetWidthMm, context.sheetHeightMm) < 0.02 ||
  leastMisfit(quad, context.imageWidthMm, context.imageHeightMm) < 0.02;

/** What ends so near to another print ends at that print's edge, px of the copy. Own. */
const NEAR_OTHERS_PX = 2;
/** How far inside the frame a bed with several prints shows its lid, px of the copy. */
const BED_PX = 2;

/** `ground` is what the board or the page that it lies on shows along its own sides, or the bed along the frame's, where there is one. */
function printsIn(search: Search, rectangle: Rectangle, depth: number, ground: Strip | null = null): Outline[] {
  const { copy } = search;
  const inner = findRectanglesInside(copy, rectangle);
  const lit = depth < DEEPEST && inner.find((each) => isInShadow(rectangle, each));
  if (lit) return printsIn(search, lit, depth + 1, ground);
  if (isGround(rectangle, inner) && depth < DEEPEST) return inner.flatMap((each) => printsIn(search, each, depth + 1));
  const touching = depth === 0 ? touchingSheets(rectangle, inner) : null;
  if (touching) return touching.map((each, index) => touchingPrint(search, rectangle, inner[index] as Rectangle, each));
  if (depth === 0 && isBoard(search, rectangle, inner)) {
    const carried = inner.flatMap((each) => printsIn(search, each, depth + 1, rectangle.margin));
    return isPictureOfOther(search, rectangle, inner) ? carried.map(doubted) : carried;
  }
  const image = likeliestImage(search, rectangle, inner);
  const around = image || rectangle.margin.plain > PLAIN ? null : findSheetOutwards(copy, rectangle.quad);
  // a border may have the colour of a white lid, but what is dark, or cut by the frame, is the lid itself
  const isLid = around && (isCut(around) || around.margin.lightness < LEAST_PAPER_LIGHTNESS);
  const isOfGround = around && ground && (depth > 0 || isLid) && isAlike(around.margin, ground);
  const meets =
    around !== null &&
    meetsOthers(
      around.quad,
      NEAR_OTHERS_PX,
      search.beside.map(({ quad }) => quad),
    );
  if (around && !isOfGround && !meets && around.margin.plain > PLAIN && area(around) > 1.02 * area(rectangle))
    return [outlineFromSheet(search, around, rectangle)];
  if (depth === 0 && !image && isPictureAlone(search, rectangle)) return [outlineFromImage(search, rectangle)];
  const outline = outlineFromSheet(search, tidied(copy, rectangle, image), image);
  return [
    !image && (lacksBorder(search, rectangle) || hasRim(search, rectangle) || mayBeOfPattern(search, rectangle))
      ? doubted(outline)
      : outline,
  ];
}

/** A blank sheet may lie along the lines of a check; only its size in the record tells it from a check then. */
const mayBeOfPattern = ({ copy, context }: Search, { quad }: Rectangle) =>
  context.sheetWidthMm === null && SIDES.filter((side) => endsRunningOn(copy, quad, side, 0) === 2).length >= 2;

const isCut = ({ sides }: Rectangle) => Object.values(sides).includes("frame");

/** Colours of one paper in one light, as L* and chroma differ between its places. Own. */
const isAlike = (one: Strip, other: Strip) => Math.abs(one.lightness - other.lightness) < 5 && isNeutralTo(one, other);
const isNeutralTo = (one: Strip, other: Strip) => Math.abs(one.chroma - other.chroma) < 4;

/** Share of a margin that is of one colour where it is a sheet's border. */
const PLAIN = 0.85;
/** And where it is texture. */
const RESTLESS = 0.6;

/** The record says that there is a border, and none is seen: what was found need not be the sheet. */
function lacksBorder({ context }: Search, { margin, quad }: Rectangle): boolean {
  const { sheetWidthMm, sheetHeightMm, imageWidthMm, imageHeightMm } = context;
  if (!sheetWidthMm || !sheetHeightMm || !imageWidthMm || !imageHeightMm) return false;
  const isBordered = imageWidthMm * imageHeightMm < 0.97 * sheetWidthMm * sheetHeightMm;
  return isBordered && (margin.plain < RESTLESS || (margin.plain < PLAIN && leastMisfit(quad, sheetWidthMm, sheetHeightMm) > 0.02));
}

/** Proportions of a sheet seen whole come so near to those of the record, as a share. Own. */
const SAME_SHEET = 0.01;

/** The record says that there is no border: a plain rim too dark for paper, in proportions that are a little off, may be a sleeve's. */
const hasRim = ({ context }: Search, { margin, quad }: Rectangle) =>
  isBorderless(context) &&
  margin.plain > PLAIN &&
  margin.lightness < LEAST_PAPER_LIGHTNESS &&
  leastMisfit(quad, context.sheetWidthMm, context.sheetHeightMm) > SAME_SHEET;

/** A print that runs into its neighbour: its outer sides are seen, those between them are not. */
function touchingPrint(search: Search, whole: Rectangle, picture: Rectangle, { sheet, parted, gapPx }: TouchingSheet): Outline {
  const weak = eachSide((side) => (parted.has(side) ? "weak" : whole.sides[side]));
  const outline = outlineFromSheet(search, { ...whole, quad: sheet, sides: weak }, picture);
  const spreadPx = Math.hypot(outline.cornerSpreadPx, (gapPx * search.copy.factor) / 4);
  const sides = eachSide((side) => (parted.has(side) ? "assumed" : outline.sides[side]));
  return { ...outline, cornerSpreadPx: spreadPx, sides, doubt: "touching" };
}

/** What was found may be something else altogether: a line of the ground, the picture, the mount. Own, as a share of the longer side. */
const DOUBTED_SPREAD = 0.06;

function doubted(outline: Outline): Outline {
  const leastPx = DOUBTED_SPREAD * Math.max(lengthOf(outline.sheet, "top"), lengthOf(outline.sheet, "left"));
  const seen = SIDES.filter((side) => outline.sides[side] === "seen");
  return doubting(outline, seen, leastPx);
}

const DEEPEST = 2;

/** A sheet's own shadow is at most so broad, as a share of the sheet's shorter side, and darker than sheet and ground by so much L*. Own. */
const SHADOW_SHARE = 0.06;
const SHADOW_DEPTH = 2;

/** A sheet on a ground as light as its paper lies in a plain ring that is darker than both and of no other colour than the ground: its shadow, whose outer end may stand out too. */
function isInShadow(ring: Rectangle, sheet: Rectangle): boolean {
  const lines = linesOf(ring.quad);
  const mostPx = SHADOW_SHARE * Math.min(lengthOf(ring.quad, "top"), lengthOf(ring.quad, "left"));
  return (
    [ring.margin, ring.around, sheet.margin].every(({ plain, lightness }) => plain > PLAIN && lightness > LEAST_PAPER_LIGHTNESS) &&
    isNeutralTo(ring.margin, ring.around) &&
    ring.margin.lightness < Math.min(ring.around.lightness, sheet.margin.lightness) - SHADOW_DEPTH &&
    SIDES.every((side) => Math.max(...endsOf(sheet.quad, side).map((end) => distanceTo(lines[side], end))) < mostPx)
  );
}

/** Lines of a pattern around a print: restless inside and outside, and with something large within. */
const isGround = (outer: Rectangle, inner: readonly Rectangle[]) =>
  outer.margin.plain < RESTLESS && outer.around.plain < RESTLESS && inner.some((each) => area(each) > 0.25 * area(outer));

/** A sheet whose margin is not plain although its picture has a plain border took in some of the ground. */
function tidied(copy: ReducedCopy, sheet: Rectangle, image: Rectangle | null): Rectangle {
  if (!image || sheet.margin.plain > 0.95 || Object.values(sheet.sides).includes("frame")) return sheet;
  const outwards = findSheetOutwards(copy, image.quad);
  return outwards && outwards.margin.plain > sheet.margin.plain ? outwards : sheet;
}

/** Picture and sheet may differ so much from the sizes in the record, as shares; nominal sizes are out by some per cent. */
const MOST_DISAGREEMENT = 0.06;

/**
 * Of the picture among the inner rectangles and the one looked for inwards, that which fills the sheet as the catalogued picture fills
 * the catalogued sheet. The second look is spared where no size speaks against the first find.
 */
function likeliestImage({ copy, context }: Search, sheet: Rectangle, inner: readonly Rectangle[]): Rectangle | null {
  const disagreement = (image: Rectangle | null) => (image ? disagreementOf(sheet.quad, image.quad, context) : Number.POSITIVE_INFINITY);
  const among = pictureAmong(sheet, inner);
  if (disagreement(among) === 0) return among;
  const inwards = findImageInwards(copy, sheet.quad);
  const best = disagreement(among) <= disagreement(inwards) ? among : inwards;
  return disagreement(best) < MOST_DISAGREEMENT ? best : null;
}

/** A board or an album page carries prints; a sheet carries one picture. */
function isBoard({ copy, context }: Search, outer: Rectangle, inner: readonly Rectangle[]): boolean {
  const fitsSheet = (quad: Quad) => leastMisfit(quad, context.sheetWidthMm, context.sheetHeightMm) < 0.02;
  const fills = (sheet: Rectangle, image: Rectangle | null) =>
    image !== null && disagreementOf(sheet.quad, image.quad, context) < MOST_DISAGREEMENT;
  // a mount may have the sheet's proportions; what it carries does not fill it as the picture fills the sheet, and is filled so itself
  const isMount = ([only, ...others]: readonly Rectangle[]) =>
    only !== undefined &&
    others.length === 0 &&
    fitsSheet(only.quad) &&
    !fills(outer, only) &&
    (isBorderless(context) || fills(only, pictureAmong(only, findRectanglesInside(copy, only))));
  if (fitsSheet(outer.quad)) return isMount(inner);
  if (inner.length > 1) return true;
  const [only] = inner;
  if (!only) return false;
  // what the frame cuts has whatever proportions it left
  if (fitsSheet(only.quad) && !Object.values(only.sides).includes("frame")) return true;
  return (
    only.margin.plain > 0.9 &&
    only.margin.lightness > LEAST_PAPER_LIGHTNESS &&
    pictureAmong(only, findRectanglesInside(copy, only)) !== null
  );
}

/** Borders of prints are narrower than this share of the sheet, but for those of instant prints; margins of mounts are mostly wider. Own. */
const NARROW_BORDER = 0.08;

/** The record says that the print has no border: what lies in a narrow one of paper may be the picture of another, larger print. */
function isPictureOfOther({ context }: Search, { quad, margin }: Rectangle, inner: readonly Rectangle[]): boolean {
  const [only, ...others] = inner;
  if (!only || others.length > 0 || !isBorderless(context)) return false;
  const lines = linesOf(quad);
  const isNarrow = SIDES.every((side) => {
    const awayPx = Math.max(...endsOf(only.quad, side).map((end) => distanceTo(lines[side], end)));
    return awayPx < NARROW_BORDER * Math.min(lengthOf(quad, "top"), lengthOf(quad, "left"));
  });
  return isNarrow && margin.plain > PLAIN && margin.lightness > LEAST_PAPER_LIGHTNESS && margin.chroma < 20;
}

const isBorderless = ({ sheetWidthMm, sheetHeightMm, imageWidthMm, imageHeightMm }: MeasureContext) =>
  sheetWidthMm !== null && imageWidthMm === sheetWidthMm && imageHeightMm === sheetHeightMm;

/** No border known is wider than this share of its sheet; the thick one of an integral print is 0.23 of it. */
const WIDEST_BORDER = 0.36;

/** The largest inner rectangle, when it lies in the sheet as a picture lies in its borders. */
function pictureAmong(sheet: Rectangle, inner: readonly Rectangle[]): Rectangle | null {
  const largest = inner.reduce<Rectangle | null>((best, each) => (best && area(best) >= area(each) ? best : each), null);
  if (!largest || overlap(largest.quad, sheet.quad) < 0.97) return null;
  const lines = linesOf(sheet.quad);
  const isBordered = SIDES.every((side) => {
    const [from, to] = endsOf(largest.quad, side);
    const acrossPx = side === "top" || side === "bottom" ? lengthOf(sheet.quad, "left") : lengthOf(sheet.quad, "top");
    return (distanceTo(lines[side], from) + distanceTo(lines[side], to)) / 2 < WIDEST_BORDER * acrossPx;
  });
  return isBordered ? largest : null;
}

/**
 * On a white ground the border of the sheet is lost and the picture alone stands out: textured just inside, bright and
 * plain and colourless outside. Proportions decide where the sizes are known and differ.
 */
function isPictureAlone({ context }: Search, found: Rectangle): boolean {
  if (Object.values(found.sides).includes("frame")) return false;
  const misfit = leastMisfit(found.quad, context.sheetWidthMm, context.sheetHeightMm);
  // a picture's proportions are often near to its sheet's: where its own are not known, only the same count
  const asSheet = context.imageWidthMm === null && misfit > SAME_SHEET ? Number.POSITIVE_INFINITY : misfit;
  const asImage = leastMisfit(found.quad, context.imageWidthMm, context.imageHeightMm);
  if (context.imageWidthMm !== null && context.imageWidthMm === context.sheetWidthMm) return false;
  if (asImage < 0.02 && asSheet > 0.035) return true;
  if (asSheet < 0.02 && asImage > 0.035) return false;
  const isPaper = found.margin.plain >= RESTLESS && found.margin.lightness >= LEAST_PAPER_LIGHTNESS;
  return !isPaper && found.around.plain > PLAIN && found.around.lightness > 75 && found.around.chroma < 15;
}

const area = (each: Rectangle) => areaOf(cornersOf(each.quad));

/** Rows from the top, each from the left; prints whose middles are within half a height of each other share a row. */
function inReadingOrder(outlines: readonly Outline[]): Outline[] {
  const rows: Outline[][] = [];
  for (const outline of [...outlines].sort((p, q) => centreOf(p.sheet).y - centreOf(q.sheet).y)) {
    const row = rows[rows.length - 1];
    const first = row?.[0];
    if (row && first && centreOf(outline.sheet).y - centreOf(first.sheet).y < lengthOf(first.sheet, "left") / 2) row.push(outline);
    else rows.push([outline]);
  }
  return rows.flatMap((row) => row.sort((p, q) => centreOf(p.sheet).x - centreOf(q.sheet).x));
}
