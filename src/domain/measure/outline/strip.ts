import { endsOf, SIDES } from "../lines.ts";
import { median } from "../numbers/robust.ts";
import type { Point, Quad } from "../picture.ts";
import type { ColourSampler } from "./edge-line.ts";

/** A line of samples along all four sides of a quad on the reduced copy. */
export type Strip = {
  /** median L*, a*, b*; NaN when the strip lies outside the frame */
  readonly lightness: number;
  readonly chroma: number;
  /** 0..1: share of the samples near the median colour of their own side; light may change from side to side */
  readonly plain: number;
};

const SAMPLES = 48;
const NEAR = 5;

/** Samples `insetPx` inside the sides (negative: outside). */
export function stripAlong(sample: ColourSampler, quad: Quad, insetPx: number): Strip {
  const sides = SIDES.map((side) => coloursAlong(sample, endsOf(quad, side), insetPx));
  const all = sides.flat();
  const [lightness, a, b] = middleOf(all);
  const near = sides.reduce((sum, colours) => sum + countNear(colours, middleOf(colours)), 0);
  return { lightness, chroma: Math.hypot(a, b), plain: all.length === 0 ? 0 : near / all.length };
}

type Colour = readonly [number, number, number];

function coloursAlong(sample: ColourSampler, [from, to]: readonly [Point, Point], insetPx: number): Colour[] {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const inward = { x: ((from.y - to.y) / length) * insetPx, y: ((to.x - from.x) / length) * insetPx };
  const colours: Colour[] = [];
  const pixel = new Float64Array(3);
  for (let index = 0; index < SAMPLES; index++) {
    const share = 0.06 + (0.88 * index) / (SAMPLES - 1);
    const seen = sample(from.x + (to.x - from.x) * share + inward.x, from.y + (to.y - from.y) * share + inward.y, pixel);
    if (seen) colours.push([pixel[0] as number, pixel[1] as number, pixel[2] as number]);
  }
  return colours;
}

function countNear(colours: readonly Colour[], [lightness, a, b]: Colour): number {
  let count = 0;
  for (const colour of colours) if (Math.hypot(colour[0] - lightness, colour[1] - a, colour[2] - b) < NEAR) count++;
  return count;
}

const middleOf = (colours: readonly Colour[]) =>
  [0, 1, 2].map((k) => median(colours.map((colour) => colour[k] as number))) as [number, number, number];
