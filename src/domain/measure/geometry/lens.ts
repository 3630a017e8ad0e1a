import { frameQuad } from "../frame.ts";
import { centreOf, cornersOf, eachSide, endsOf, lengthOf, lineThrough, opposite, quadOf, SIDES, type Side } from "../lines.ts";
import type { EdgeFit } from "../outline/edge-line.ts";
import type { Picture, Point, Quad } from "../picture.ts";

/** How a side that is straight in truth bows in the frame. */
export type SideBow = {
  readonly side: Side;
  readonly from: Point;
  readonly to: Point;
  /** how far its middle lies inwards of the chord, px */
  readonly bowPx: number;
  readonly spreadPx: number;
};

/** What the bows of a print's sides tell of the lens. */
export type LensFit = {
  /**
   * Radial distortion about the middle of the frame, per px²: a place seen r px from it would be seen at (1 + radial · r²)
   * times as far without. Positive: barrel. First term of Brown's model, for places as they are seen.
   */
  readonly radial: number;
  readonly spread: number;
  /** what the lens leaves of each bow, px, in the order given */
  readonly leftPx: readonly number[];
};

/** What an edge that was followed along a side says; nothing where it could not be followed far enough. */
export function bowOf(quad: Quad, edge: EdgeFit | null, side: Side): SideBow[] {
  if (!edge || !Number.isFinite(edge.sagSpreadPx)) return [];
  const [from, to] = endsOf(quad, side);
  return [{ side, from, to, bowPx: edge.sagPx, spreadPx: edge.sagSpreadPx }];
}

/** Sides are cut and lie this straight, as a share of their length; from drawn and real prints lying flat. */
const STRAIGHT_SHARE = 0.0004;

/**
 * The distortion that straightens all sides best. A lens bows each side by its distance from the middle of the frame
 * times its length squared, so that sides in both directions must agree; a curled sheet bows those of one direction
 * only. Null without a side in each direction.
 */
export function lensFrom(bows: readonly SideBow[], frame: Pick<Picture, "widthPx" | "heightPx">): LensFit | null {
  const isUpright = ({ side }: SideBow) => side === "left" || side === "right";
  if (!bows.some(isUpright) || bows.every(isUpright)) return null;
  const centre = centreOf(frameQuad(frame));
  const rows = bows.map((bow) => {
    const gain = straightenedBy(bow, centre);
    const length = Math.hypot(bow.to.x - bow.from.x, bow.to.y - bow.from.y);
    return { bow, gain, weight: 1 / (bow.spreadPx ** 2 + (STRAIGHT_SHARE * length) ** 2) };
  });
  const information = rows.reduce((sum, { gain, weight }) => sum + weight * gain * gain, 0);
  if (!(information > 0)) return null;
  const radial = -rows.reduce((sum, { bow, gain, weight }) => sum + weight * gain * bow.bowPx, 0) / information;
  return {
    radial,
    spread: 1 / Math.sqrt(information),
    leftPx: rows.map(({ bow, gain }) => bow.bowPx + radial * gain),
  };
}

/** Change of a side's bow, px, by a radial distortion of 1 per px² taken away. */
function straightenedBy({ from, to, bowPx }: SideBow, centre: Point): number {
  const chord = lineThrough(from, to);
  const middle = { x: (from.x + to.x) / 2 + chord.nx * bowPx, y: (from.y + to.y) / 2 + chord.ny * bowPx };
  const moved = (point: Point) => {
    const square = (point.x - centre.x) ** 2 + (point.y - centre.y) ** 2;
    return square * (chord.nx * (point.x - centre.x) + chord.ny * (point.y - centre.y));
  };
  return moved(middle) - (moved(from) + moved(to)) / 2;
}

/** Each bow is explained by the lens, within what is left by cutting and by chance. */
export function isOfLens({ leftPx }: LensFit, bows: readonly SideBow[]): boolean {
  return bows.every(({ from, to, spreadPx }, index) => {
    const length = Math.hypot(to.x - from.x, to.y - from.y);
    return Math.abs(leftPx[index] as number) < 3 * Math.hypot(spreadPx, 2 * STRAIGHT_SHARE * length);
  });
}

/** Where a place would be seen without the lens's distortion. */
export function straightened(point: Point, radial: number, frame: Pick<Picture, "widthPx" | "heightPx">): Point {
  const centre = centreOf(frameQuad(frame));
  const [dx, dy] = [point.x - centre.x, point.y - centre.y];
  const factor = 1 + radial * (dx * dx + dy * dy);
  return { x: centre.x + factor * dx, y: centre.y + factor * dy };
}

/** Where a place is seen that would be seen at `point` without the lens's distortion: the way back of `straightened`. */
export function seenThroughLens(point: Point, radial: number, frame: Pick<Picture, "widthPx" | "heightPx">): Point {
  const centre = centreOf(frameQuad(frame));
  const [dx, dy] = [point.x - centre.x, point.y - centre.y];
  const square = dx * dx + dy * dy;
  // Newton's steps on s (1 + radial r² s²) = 1, s the share of the way out at which it is seen
  let share = 1;
  for (let step = 0; step < LENS_STEPS; step++) {
    const bend = radial * square * share * share;
    share -= (share * (1 + bend) - 1) / (1 + 3 * bend);
  }
  return { x: centre.x + share * dx, y: centre.y + share * dy };
}

/** Five are exact to a thousandth of a pixel for any lens whose picture is not folded over. */
const LENS_STEPS = 5;

export function straightenedQuad(quad: Quad, radial: number | undefined, frame: Pick<Picture, "widthPx" | "heightPx">): Quad {
  if (!radial) return quad;
  const [a, b, c, d] = cornersOf(quad).map((corner) => straightened(corner, radial, frame)) as [Point, Point, Point, Point];
  return quadOf([a, b, c, d]);
}

/** How far inwards the sides of a quad that are straight in truth bow in the frame, px. */
export function bowsOf(quad: Quad, radial: number | undefined, frame: Pick<Picture, "widthPx" | "heightPx">): Record<Side, number> {
  if (!radial) return eachSide(() => 0);
  const centre = centreOf(frameQuad(frame));
  const corners = cornersOf(quad);
  return eachSide((side) => {
    const index = SIDES.indexOf(side);
    const [from, to] = [corners[index] as Point, corners[(index + 1) % 4] as Point];
    const first = -radial * straightenedBy({ side, from, to, bowPx: 0, spreadPx: 0 }, centre);
    return -radial * straightenedBy({ side, from, to, bowPx: first, spreadPx: 0 }, centre);
  });
}

/**
 * The distance of two opposite sides in their middle against that at their ends, in percent of the middle: what the
 * distortion does to a print. The pair that it does more to.
 */
export function barrelOfPair(quad: Quad, bows: Readonly<Record<Side, number>>): { readonly percent: number; readonly side: Side } {
  const pairs = (["top", "left"] as const).map((side) => {
    const ends = (lengthOf(quad, side === "top" ? "left" : "top") + lengthOf(quad, side === "top" ? "right" : "bottom")) / 2;
    const middle = ends - bows[side] - bows[opposite(side)];
    return { side, percent: (100 * (middle - ends)) / middle };
  }) as [{ side: Side; percent: number }, { side: Side; percent: number }];
  return Math.abs(pairs[0].percent) >= Math.abs(pairs[1].percent) ? pairs[0] : pairs[1];
}
