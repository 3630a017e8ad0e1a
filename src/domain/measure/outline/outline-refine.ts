import { endsOf, lengthOf, linesOf, quadOfLines, SIDES, type Side } from "../lines.ts";
import type { Picture, Quad } from "../picture.ts";
import { type EdgeFit, findEdge } from "./edge-line.ts";
import { linearProfiles } from "./samplers.ts";

/** Sides as they run over the full picture; null for a side that shows no edge of its own and keeps its first line. */
export type RefinedQuad = { readonly quad: Quad; readonly edges: Readonly<Record<Side, EdgeFit | null>> };

type RefineOptions = { readonly fixed?: ReadonlySet<Side>; readonly bowsPx?: Readonly<Record<Side, number>> };

const STRAIGHT = { top: 0, right: 0, bottom: 0, left: 0 } as const;

/** Below this share of its length a side is not seen. Common practice, no source. */
const LEAST_SHARE = 0.5;
/** In linear light; noise and texture of a dark ground stay below. */
const LEAST_STEP = 0.012;
/** Sheets curl and cut edges wander: a profile agrees within this share of the side's length. */
const WANDER = 0.0015;

/**
 * Finds the sides again in the full picture, in linear light, where positions are unbiased: a wide look, then two
 * narrow ones. `quad` is good to about `roughPx`, its sides bow by about `bowsPx`; sides in `fixed` stay as they are.
 */
export function refineQuad(
  picture: Picture,
  quad: Quad,
  roughPx: number,
  { fixed = new Set(), bowsPx = STRAIGHT }: RefineOptions = {},
): RefinedQuad {
  const sample = linearProfiles(picture);
  const looks = [
    { reachPx: Math.max(8, 2.2 * roughPx), lagPx: Math.max(2, roughPx / 2), profiles: 120, wander: 2 * WANDER, fewestPx: roughPx / 2 + 1 },
    { reachPx: 8, lagPx: 1, profiles: 240, wander: WANDER, fewestPx: 1.5 },
    { reachPx: 7, lagPx: 1, profiles: 480, wander: WANDER, fewestPx: 1.2 },
  ];
  let refined: RefinedQuad = { quad, edges: { top: null, right: null, bottom: null, left: null } };
  const bows = { ...bowsPx };
  for (const { wander, fewestPx, ...look } of looks) {
    const lines = { ...linesOf(refined.quad) };
    const edges: Record<Side, EdgeFit | null> = { top: null, right: null, bottom: null, left: null };
    for (const side of SIDES) {
      if (fixed.has(side)) continue;
      const [from, to] = endsOf(refined.quad, side);
      const tolerancePx = Math.max(fewestPx, wander * lengthOf(refined.quad, side));
      const edge = findEdge(sample, from, to, { ...look, tolerancePx, leastStep: LEAST_STEP, bowPx: bows[side] });
      if (!edge || edge.share < LEAST_SHARE) continue;
      edges[side] = edge;
      bows[side] = edge.bowPx;
      lines[side] = edge.line;
    }
    const next = quadOfLines(lines);
    if (!next) return refined;
    refined = { quad: next, edges };
  }
  return refined;
}

/** One-sigma uncertainty of the least sure corner, px: both its sides taken together. */
export function cornerSpread(edges: readonly (Pick<EdgeFit, "fromSpreadPx" | "toSpreadPx"> | null)[], unseenPx: number): number {
  const squares = SIDES.map((_, index) => {
    const before = edges[(index + 3) % 4]?.toSpreadPx ?? unseenPx;
    const after = edges[index]?.fromSpreadPx ?? unseenPx;
    return before * before + after * after;
  });
  return Math.hypot(LEAST_CORNER_PX, Math.sqrt(Math.max(...squares)));
}

/** Interpolation and quantisation leave this much whatever the fit says; from drawn pictures with known corners. */
const LEAST_CORNER_PX = 0.05;
