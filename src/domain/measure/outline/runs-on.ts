import { endsOf, type Side } from "../lines.ts";
import type { Point, Quad } from "../picture.ts";
import { findEdge, type ProfileSampler } from "./edge-line.ts";
import type { ReducedCopy } from "./reduced-copy.ts";
import { labProfiles } from "./samplers.ts";

/** Where the looks beyond a corner begin and end, px of the reduced copy: at once, so that a neighbour laid in line is not taken for more of a side. */
const BEYOND_PX = [
  [3, 11],
  [8, 16],
] as const;
const EDGE = { reachPx: 5, profiles: 24, lagPx: 2, leastStep: 4, tolerancePx: 1.4 } as const;
const LEAST_SHARE = 0.7;
/**
 * At how many of its two ends a side runs straight on beyond the corner: a sheet's side ends there, while the lines of a
 * check or of a grain go on. `quad` in px of the reduced copy; what runs on has at least `asStrong` of the side's own step. Own.
 */
export function endsRunningOn(copy: ReducedCopy, quad: Quad, side: Side, asStrong: number): number {
  const sample = labProfiles(copy);
  const [from, to] = endsOf(quad, side);
  const leastStep = asStrong * (findEdge(sample, from, to, EDGE)?.step ?? 0);
  return [runsOn(sample, to, from, leastStep, copy), runsOn(sample, from, to, leastStep, copy)].filter(Boolean).length;
}

/** Beyond `corner`, away from `other`; lighter on either side. */
function runsOn(sample: ProfileSampler, other: Point, corner: Point, leastStep: number, { widthPx, heightPx }: ReducedCopy): boolean {
  const length = Math.hypot(corner.x - other.x, corner.y - other.y);
  const [dx, dy] = [(corner.x - other.x) / length, (corner.y - other.y) / length];
  return BEYOND_PX.every(([fromPx, toPx]) => {
    const [near, far] = [fromPx, toPx].map((px) => ({ x: corner.x + dx * px, y: corner.y + dy * px })) as [Point, Point];
    if (!(far.x > 2 && far.y > 2 && far.x < widthPx - 3 && far.y < heightPx - 3)) return false;
    const edge = findEdge(sample, near, far, EDGE);
    return edge !== null && edge.share >= LEAST_SHARE && edge.step >= leastStep;
  });
}
