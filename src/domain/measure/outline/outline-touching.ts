import {
  areaOf,
  centreOf,
  cornersOf,
  distanceTo,
  endsOf,
  type Line,
  lengthOf,
  linesOf,
  lineThrough,
  quadOfLines,
  SIDES,
  type Side,
} from "../lines.ts";
import type { Point, Quad } from "../picture.ts";
import type { Rectangle } from "./rectangle.ts";
import { overlap } from "./rectangle.ts";

/** L* and chroma of a print's border; album pages and boards are mostly darker or tinted. Own. */
const LEAST_LIGHTNESS = 70;
const MOST_CHROMA = 20;
/** Borders round all of them are as narrow as those of prints, as shares of the picture beside them, and of about one width. Own. */
const WIDEST = 0.3;
const UNEQUAL = 1.6;
/** The gap between two pictures, in borders: two where both borders are there, fewer where one print lies over the other. Own. */
const GAP = [0.9, 2.6] as const;

/** One of several sheets that run into one another; sides that part two of them were not seen. */
export type TouchingSheet = {
  readonly sheet: Quad;
  readonly parted: ReadonlySet<Side>;
  /** between its picture and the farthest of its neighbours' */
  readonly gapPx: number;
};

/**
 * The sheets of prints whose borders run into one another, so that they look like one sheet with several pictures: the
 * outer sides of the whole, parted half way between neighbours. Null where that is not what is seen, in the
 * order of `pictures`.
 */
export function touchingSheets(whole: Rectangle, pictures: readonly Rectangle[]): readonly TouchingSheet[] | null {
  if (pictures.length < 2 || whole.margin.lightness < LEAST_LIGHTNESS || whole.margin.chroma > MOST_CHROMA) return null;
  const outer = linesOf(whole.quad);
  const borders: number[] = [];
  const gaps: number[] = [];
  const found = pictures.flatMap(({ quad }): TouchingSheet[] => {
    const lines: Record<Side, Line> = { ...outer };
    const parted = new Set<Side>();
    let widest = 0;
    for (const side of SIDES) {
      const near = pictures.find((other) => other.quad !== quad && liesBeyond(quad, side, other.quad));
      if (!near) {
        borders.push(meanDistance(outer[side], endsOf(quad, side)) / Math.sqrt(areaOf(cornersOf(quad))));
        continue;
      }
      const [from, to] = endsOf(quad, side);
      const [a, b] = endsOf(near.quad, FACING[side]);
      lines[side] = lineThrough(between(from, b), between(to, a));
      parted.add(side);
      const gapPx = Math.hypot(from.x + to.x - a.x - b.x, from.y + to.y - a.y - b.y) / 2;
      gaps.push(gapPx / Math.sqrt(areaOf(cornersOf(quad))));
      widest = Math.max(widest, gapPx);
    }
    const sheet = quadOfLines(lines);
    return sheet && isCovered(sheet, whole.quad) ? [{ sheet, parted, gapPx: widest }] : [];
  });
  const [narrow, wide] = [Math.min(...borders), Math.max(...borders)];
  const isLikeBorders = narrow > 0 && wide < WIDEST && wide < UNEQUAL * narrow;
  const isLikeGaps = gaps.length > 0 && gaps.every((gap) => gap > GAP[0] * narrow && gap < GAP[1] * wide);
  if (!isLikeBorders || !isLikeGaps) return null;
  return found.length === pictures.length ? found : null;
}

const FACING: Readonly<Record<Side, Side>> = { top: "bottom", right: "left", bottom: "top", left: "right" };

const between = (p: Point, q: Point): Point => ({ x: (p.x + q.x) / 2, y: (p.y + q.y) / 2 });

const meanDistance = (line: Line, [from, to]: readonly [Point, Point]) => (distanceTo(line, from) + distanceTo(line, to)) / 2;

const isCovered = (inner: Quad, outer: Quad) => overlap(inner, outer) > 0.95;

/** The other quad's middle lies across this side, abreast of it. */
function liesBeyond(quad: Quad, side: Side, other: Quad): boolean {
  const lines = linesOf(quad);
  const middle = centreOf(other);
  const isLevel = side === "top" || side === "bottom";
  const [before, after] = isLevel ? ([lines.left, lines.right] as const) : ([lines.top, lines.bottom] as const);
  const isAbreast = distanceTo(before, middle) > 0 && distanceTo(after, middle) > 0;
  const farPx = 2 * lengthOf(quad, isLevel ? "left" : "top");
  return isAbreast && distanceTo(lines[side], middle) < 0 && distanceTo(lines[side], middle) > -farPx;
}
