import { homographyFromMm, project } from "../homography.ts";
import { areaOf, isConvex, quadOf } from "../lines.ts";
import type { Point, Quad } from "../picture.ts";
import type { GridPlane } from "../planes/grid-plane.ts";

const STEPS_ACROSS = 48;
const STRIPS = 7;
/** From where to where strips lie across, and bars are looked for along them; towards the rim all light falls. */
const INNER = 0.14;
/** A bar takes so much of the light of what lies beside it, in so many of the strips, and is no wider than this share. */
const BAR_DEPTH = 0.3;
const BAR_STRIPS = 0.7;
const WIDEST_BAR = 0.2;

/**
 * How many straight dark bars run through a four-cornered figure from side to side, along either of its directions: narrow dips of the light at
 * one place in most of seven strips. A dip that is as dark over several steps, as of a light with few cells, is one; so are steps side by side that are
 * dark in most strips. A dark shape before a window is in few of them. `full` is the figure's own light. Source: own.
 */
export function barsIn({ width, height, data }: GridPlane, corners: readonly [Point, Point, Point, Point], full: number): number {
  const quad: Quad = quadOf(areaOf(corners) > 0 ? corners : ([...corners].reverse() as [Point, Point, Point, Point]));
  if (!isConvex(quad)) return 0;
  const map = homographyFromMm(1, 1, quad);
  const lightAt = (u: number, v: number): number => {
    const { x, y } = project(map, u, v);
    const [column, row] = [Math.floor(x), Math.floor(y)];
    return column < 0 || row < 0 || column >= width || row >= height ? Number.NaN : (data[row * width + column] as number);
  };
  return [lightAt, (u: number, v: number) => lightAt(v, u)].reduce((sum, at) => sum + barsAlong(at, full), 0);
}

function barsAlong(lightAt: (u: number, v: number) => number, full: number): number {
  const strips = new Uint8Array(STEPS_ACROSS);
  for (let strip = 0; strip < STRIPS; strip++) {
    const v = INNER + ((1 - 2 * INNER) * (strip + 0.5)) / STRIPS;
    const profile = Array.from({ length: STEPS_ACROSS }, (_, step) => Math.min(1, lightAt((step + 0.5) / STEPS_ACROSS, v) / full));
    // a bar that leans a little lies a step beside itself in the next strip
    const reached = new Set(dipsOf(profile).flatMap((step) => [step - 1, step, step + 1]));
    for (const step of reached) strips[step] = (strips[step] as number) + 1;
  }
  const isBar = (step: number) => (strips[step] ?? 0) >= BAR_STRIPS * STRIPS;
  let bars = 0;
  for (let step = 0; step < STEPS_ACROSS; step++) {
    if (!isBar(step)) continue;
    bars++;
    while (isBar(step + 1)) step++;
    step += Math.round(WIDEST_BAR * STEPS_ACROSS) >> 1;
  }
  return bars;
}

/** The darkest steps of narrow dips with bright light on both sides. */
function dipsOf(profile: readonly number[]): number[] {
  const reach = Math.round(WIDEST_BAR * STEPS_ACROSS);
  const dips: number[] = [];
  for (let step = Math.round(INNER * STEPS_ACROSS); step < STEPS_ACROSS - INNER * STEPS_ACROSS; step++) {
    const here = profile[step] as number;
    const before = Math.max(...profile.slice(Math.max(0, step - reach), step).filter(Number.isFinite));
    const after = Math.max(...profile.slice(step + 1, step + 1 + reach).filter(Number.isFinite));
    const near = profile.slice(Math.max(0, step - reach), step + 1 + reach);
    if (here === Math.min(...near.filter(Number.isFinite)) && here < (1 - BAR_DEPTH) * Math.min(before, after)) dips.push(step);
  }
  return dips;
}
