import { homographyFromMm, inverse, project } from "../homography.ts";
import { aspectOf, distanceTo, endsOf, isUpright, type Line, lineThrough, opposite, quadOfLines, type Side } from "../lines.ts";
import type { Point, Quad } from "../picture.ts";
import { type SizeAsSeen, type SizeMm, turnedSize } from "../size-as-seen.ts";
import type { FaintSide } from "./outline-faint-side.ts";

/** Both borders of an axis may miss the catalogued total by this much, mm. */
const BORDER_TOLERANCE_MM = 1.25;
/** Above this the borders of an axis are not halves: one is the thick one, at the bottom of a print held upright. */
const EVEN_BORDERS_MM = 14;
/** The thin border's share of thin and thick together, on integral instant prints (sources give 0.15 to 0.21). */
const THIN_SHARE = 0.2;

/**
 * The whole sheet from the picture, the sides that were seen, and the catalogued sizes. A side that contradicts the
 * sizes, being less clear than the one opposite, is dropped. `seen` are the sides kept.
 */
export function completedSheet(
  image: Quad,
  faint: ReadonlyMap<Side, FaintSide>,
  sizes: SizeAsSeen,
): { readonly sheet: Quad; readonly seen: ReadonlySet<Side> } {
  const known = sizes.sheet && sizes.image ? ([sizes.sheet, sizes.image] as const) : null;
  const ways = known ? (sizes.isCertain ? [known] : [known, [turnedSize(known[0]), turnedSize(known[1])] as const]) : [null];
  const tries = ways.map((way) => completedOneWay(image, faint, way));
  return tries.reduce((best, each) => (each.contradictionMm < best.contradictionMm ? each : best));
}

function completedOneWay(image: Quad, faint: ReadonlyMap<Side, FaintSide>, sizes: readonly [sheet: SizeMm, image: SizeMm] | null) {
  // Without sizes any unit will do: borders are then only compared with each other.
  const unit = sizes?.[1] ?? { widthMm: 100 * aspectOf(image), heightMm: 100 };
  const toPx = homographyFromMm(unit.widthMm, unit.heightMm, image);
  const toMm = inverse(toPx);
  const borders = new Map([...faint].map(([side, { line }]) => [side, borderMm(side, project(toMm, ...footOf(image, side, line)), unit)]));
  const totalOf = (side: Side) => {
    if (!sizes) return null;
    const [sheet, picture] = sizes;
    return isUpright(side) ? Math.max(0, sheet.widthMm - picture.widthMm) : Math.max(0, sheet.heightMm - picture.heightMm);
  };
  let contradictionMm = 0;
  for (const side of ["top", "left"] as const) {
    const [one, other, total] = [borders.get(side), borders.get(opposite(side)), totalOf(side)];
    if (total === null) continue;
    const excess = one !== undefined && other !== undefined ? Math.abs(one + other - total) : Math.max(0, (one ?? other ?? 0) - total);
    contradictionMm += excess;
    if (excess <= BORDER_TOLERANCE_MM) continue;
    const isClearer = (faint.get(side)?.clarity ?? 0) > (faint.get(opposite(side))?.clarity ?? 0);
    borders.delete(isClearer && other !== undefined ? opposite(side) : side);
    if (one === undefined || other === undefined) borders.delete(opposite(side));
  }
  const mean = [...borders.values()].reduce((sum, border) => sum + border, 0) / Math.max(1, borders.size);
  const lineOf = (side: Side): Line => {
    const line = borders.has(side) ? faint.get(side)?.line : undefined;
    if (line) return line;
    const border = assumedBorder(side, borders.get(opposite(side)) ?? null, totalOf(side), mean);
    return lineThrough(...(sideAt(side, border, unit).map(({ x, y }) => project(toPx, x, y)) as [Point, Point]));
  };
  const sheet = quadOfLines({ top: lineOf("top"), right: lineOf("right"), bottom: lineOf("bottom"), left: lineOf("left") });
  return { sheet: sheet ?? image, seen: new Set(sheet ? borders.keys() : []), contradictionMm };
}

function assumedBorder(side: Side, otherMm: number | null, totalMm: number | null, meanMm: number): number {
  if (totalMm === null) return otherMm ?? meanMm;
  if (otherMm !== null) return Math.max(0, totalMm - otherMm);
  if (totalMm <= EVEN_BORDERS_MM || isUpright(side)) return totalMm / 2;
  return totalMm * (side === "top" ? THIN_SHARE : 1 - THIN_SHARE);
}

/** The point of a line nearest to the middle of a side. */
function footOf(quad: Quad, side: Side, line: Line): readonly [number, number] {
  const [from, to] = endsOf(quad, side);
  const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
  const away = distanceTo(line, middle);
  return [middle.x - line.nx * away, middle.y - line.ny * away];
}

function borderMm(side: Side, at: Point, image: SizeMm): number {
  return { top: -at.y, right: at.x - image.widthMm, bottom: at.y - image.heightMm, left: -at.x }[side];
}

/** Both ends, clockwise, of a side of the sheet that lies `border` outside the picture. */
function sideAt(side: Side, border: number, { widthMm: w, heightMm: h }: SizeMm): readonly [Point, Point] {
  const ends: Record<Side, readonly [Point, Point]> = {
    top: [
      { x: 0, y: -border },
      { x: w, y: -border },
    ],
    right: [
      { x: w + border, y: 0 },
      { x: w + border, y: h },
    ],
    bottom: [
      { x: w, y: h + border },
      { x: 0, y: h + border },
    ],
    left: [
      { x: -border, y: h },
      { x: -border, y: 0 },
    ],
  };
  return ends[side];
}
