import { areaOf, cornersOf, distanceTo, endsOf, isInside, type Line, lengthOf, linesOf, quadOfLines, SIDES, type Side } from "../lines.ts";
import type { Point, Quad } from "../picture.ts";
import { findEdge } from "./edge-line.ts";
import type { ReducedCopy } from "./reduced-copy.ts";
import { wholeCopy } from "./region.ts";
import { labProfiles, labSampler } from "./samplers.ts";
import { type Strip, stripAlong } from "./strip.ts";

/** edge: a straight edge is seen; frame: the frame cuts the rectangle here; weak: the border of the patch, no more */
export type SideKind = "edge" | "frame" | "weak";

export type Rectangle = {
  /** px of the reduced copy */
  readonly quad: Quad;
  readonly sides: Readonly<Record<Side, SideKind>>;
  /** how far inwards each side bows in its middle, px of the reduced copy */
  readonly bowsPx: Readonly<Record<Side, number>>;
  /** 0..4: the shares of the sides along which the edge is seen */
  readonly support: number;
  /** what shows just inside the sides, where a sheet shows its border */
  readonly margin: Strip;
  /** what shows just outside them */
  readonly around: Strip;
};

const LEAST_SIDE_PX = 20;
const LEAST_SHARE = 0.55;
/** So near to the frame anything may look like an edge. */
const LEAST_SHARE_AT_FRAME = 0.8;
const LEAST_GROUND_PX = 1;
/** A side this near to the frame's lies on it. */
const ON_FRAME_PX = 2.5;
const EDGE = { reachPx: 6, profiles: 60, lagPx: 2, leastStep: 2.5, tolerancePx: 1.4 } as const;
/** Beside a patch whose sides are known that well, no farther: a neighbour's edge may be the stronger. */
export const NARROW_LOOK = { reachPx: 2, lagPx: 1 } as const;

/**
 * Looks for the four straight edges of a patch's quad. Null when it is no rectangle seen in perspective, when more
 * than one side shows no edge, or when the frame cuts more than two sides.
 */
export function confirmRectangle(
  copy: ReducedCopy,
  patch: Quad,
  look: { readonly reachPx: number; readonly lagPx: number } = EDGE,
): Rectangle | null {
  const profile = labProfiles(copy);
  const sample = labSampler(copy);
  const frame = linesOf(wholeCopy(copy));
  let quad = patch;
  let found: { readonly kind: SideKind; readonly share: number; readonly bowPx: number }[] = [];
  for (let pass = 0; pass < 2; pass++) {
    const lines = { ...linesOf(quad) };
    found = SIDES.map((side, index) => {
      const [from, to] = endsOf(quad, side);
      const edge = findEdge(profile, from, to, { ...EDGE, ...look, bowPx: found[index]?.bowPx ?? 0 });
      const isNearFrame = liesOn(frame[side], quad, side, copy);
      if (
        edge &&
        edge.share >= (isNearFrame ? LEAST_SHARE_AT_FRAME : LEAST_SHARE) &&
        (!isNearFrame || leavesGround(edge.line, from, to, copy))
      ) {
        lines[side] = edge.line;
        return { kind: "edge", share: edge.share, bowPx: edge.bowPx };
      }
      if (!isNearFrame) return { kind: "weak", share: edge?.share ?? 0, bowPx: 0 };
      lines[side] = frame[side];
      return { kind: "frame", share: 0, bowPx: 0 };
    });
    const next = quadOfLines(lines);
    if (!next || !isRectangular(next)) return null;
    quad = next;
  }
  const count = (kind: SideKind) => found.filter((each) => each.kind === kind).length;
  if (count("weak") > 1 || count("frame") > 2 || count("edge") < 2 || (count("weak") === 1 && count("edge") < 3)) return null;
  const bowOf = (index: number) => found[index]?.bowPx ?? 0;
  const [top, right, bottom, left] = found.map((each) => each.kind) as [SideKind, SideKind, SideKind, SideKind];
  return {
    quad,
    sides: { top, right, bottom, left },
    bowsPx: { top: bowOf(0), right: bowOf(1), bottom: bowOf(2), left: bowOf(3) },
    support: found.reduce((sum, each) => sum + each.share, 0),
    margin: stripAlong(sample, quad, 3),
    around: stripAlong(sample, quad, -4),
  };
}

/**
 * Of rectangles found several times, in one another and across one another, the outermost ones of good quality, each
 * once. Where two are nearly the same, quality decides: a patch may have swallowed a streak of the ground. What has no
 * plain margin but holds a sheet that has one is neither sheet nor board, but lines of a pattern.
 */
export function outermost(found: readonly Rectangle[]): Rectangle[] {
  const distinct: Rectangle[] = [];
  for (const each of [...found].sort((p, q) => quality(q) - quality(p))) {
    if (!distinct.some((kept) => overlap(kept.quad, each.quad) * overlap(each.quad, kept.quad) > NEARLY_THE_SAME)) distinct.push(each);
  }
  const sheets = distinct.filter((each) => each.margin.plain > 0.9 && each.support > 3.5);
  const isPattern = (each: Rectangle) =>
    each.margin.plain < 0.75 && sheets.some((sheet) => sheet !== each && overlap(sheet.quad, each.quad) > 0.9);
  const kept: Rectangle[] = [];
  for (const each of distinct
    .filter((one) => !isPattern(one))
    .sort((p, q) => Number(hasWeak(p)) - Number(hasWeak(q)) || areaOf(cornersOf(q.quad)) - areaOf(cornersOf(p.quad)))) {
    if (!kept.some((larger) => overlap(each.quad, larger.quad) > 0.3 || overlap(larger.quad, each.quad) > 0.3)) kept.push(each);
  }
  return kept;
}

/** Product of both overlaps. A sheet and its picture are often nearer than this; the plain margin then decides for the sheet. */
const NEARLY_THE_SAME = 0.7;

const hasWeak = (each: Rectangle) => Object.values(each.sides).includes("weak");

/** A side on the frame shows no edge, but is nobody's fault; larger wins where all else is equal. */
function quality(each: Rectangle): number {
  const onFrame = Object.values(each.sides).filter((kind) => kind === "frame").length;
  return each.support + 0.9 * onFrame + each.margin.plain + 1e-7 * areaOf(cornersOf(each.quad));
}

/** Beyond the line, at both its ends, a strip of ground is left before the frame. */
function leavesGround(line: Line, from: Point, to: Point, { widthPx, heightPx }: ReducedCopy): boolean {
  return [from, to].every((end) => {
    const away = distanceTo(line, end);
    const x = end.x - line.nx * away;
    const y = end.y - line.ny * away;
    return (
      x > LEAST_GROUND_PX - 0.5 && y > LEAST_GROUND_PX - 0.5 && x < widthPx - 0.5 - LEAST_GROUND_PX && y < heightPx - 0.5 - LEAST_GROUND_PX
    );
  });
}

/** All along its part inside the frame, the side keeps close to the frame's own. */
function liesOn(frameLine: Line, quad: Quad, side: Side, copy: ReducedCopy): boolean {
  const [from, to] = endsOf(quad, side);
  return [0.1, 0.3, 0.5, 0.7, 0.9].every((share) => {
    const at = { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
    const across = side === "top" || side === "bottom" ? at.x : at.y;
    const beyond = across < 0 || across > (side === "top" || side === "bottom" ? copy.widthPx : copy.heightPx);
    return beyond || distanceTo(frameLine, at) < ON_FRAME_PX;
  });
}

/** Angles between 62° and 118°, opposite sides within 1 : 1.5, no side too short. */
function isRectangular(quad: Quad): boolean {
  const corners = cornersOf(quad);
  const isSquareEnough = corners.every((corner, index) => {
    const next = corners[(index + 1) % 4] as Point;
    const before = corners[(index + 3) % 4] as Point;
    const [ax, ay, bx, by] = [next.x - corner.x, next.y - corner.y, before.x - corner.x, before.y - corner.y];
    return Math.abs(ax * bx + ay * by) < 0.47 * Math.hypot(ax, ay) * Math.hypot(bx, by);
  });
  const lengths = SIDES.map((side) => lengthOf(quad, side)) as [number, number, number, number];
  const ratio = (a: number, b: number) => Math.max(a, b) / Math.min(a, b);
  return (
    isSquareEnough && Math.min(...lengths) >= LEAST_SIDE_PX && ratio(lengths[0], lengths[2]) < 1.5 && ratio(lengths[1], lengths[3]) < 1.5
  );
}

const GRID = 12;

/** Share of a quad that lies inside another, by a grid of points. */
export function overlap(quad: Quad, other: Quad): number {
  const { topLeft: a, topRight: b, bottomRight: c, bottomLeft: d } = quad;
  let inside = 0;
  for (let row = 0; row < GRID; row++) {
    for (let column = 0; column < GRID; column++) {
      const u = (column + 0.5) / GRID;
      const v = (row + 0.5) / GRID;
      const mix = (p: number, q: number, r: number, s: number) => p * (1 - u) * (1 - v) + q * u * (1 - v) + r * u * v + s * (1 - u) * v;
      if (isInside(other, { x: mix(a.x, b.x, c.x, d.x), y: mix(a.y, b.y, c.y, d.y) })) inside++;
    }
  }
  return inside / (GRID * GRID);
}
