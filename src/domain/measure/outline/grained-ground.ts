import { eachSide, endsOf, isInside, lengthOf, SIDES, type Side } from "../lines.ts";
import { median } from "../numbers/robust.ts";
import type { Point, Quad } from "../picture.ts";
import type { Outline } from "../reading.ts";
import { doubting } from "./doubted-sides.ts";
import type { ColourSampler } from "./edge-line.ts";
import { quadToCopy, type ReducedCopy } from "./reduced-copy.ts";
import { labSampler } from "./samplers.ts";
import { stripAlong } from "./strip.ts";

/** Step over streak below which a streak may have drawn a side aside, or be taken for it; from drawn grounds. */
const LEAST_RATIO = 3;
/** Step over the middle fine step of the ground above which it is plain between its lines, as a check is; from drawn grounds. */
const MOST_OVER_GRAIN = 24;
/** How far off a side may be that steps no more than a streak does, one sigma, as a share of it; less where it steps more. Own. */
const LOST_SHARE = 0.04;
/** Where so much of a strip so far outside is of one colour, px of the copy, the ground has no streaks: a lid with the sheet's shadow on it. */
const PLAIN = 0.95;
const PLAIN_AT_PX = 10;

/**
 * The outline with those sides in doubt that streaks of the ground run along, such as the grain of wood: the step from
 * ground to sheet (median of 64 places, CIELAB on the reduced copy, means over 2 to 6 px) is less than three times the
 * strongest that either half of the side shows along the same colours when it is laid up to 32 px outside; and there are
 * finer steps (1 to 3 px) nearly everywhere. Own.
 */
export function doubtedByGrain(copy: ReducedCopy, outline: Outline, all: readonly Outline[]): Outline {
  const sample = labSampler(copy);
  const sheet = quadToCopy(copy, outline.sheet);
  if (stripAlong(sample, sheet, -PLAIN_AT_PX).plain >= PLAIN) return outline;
  const others = all.filter((other) => other !== outline).map((other) => quadToCopy(copy, other.sheet));
  const ratios = eachSide((side) => (outline.sides[side] === "seen" ? stepOverStreaks(sample, sheet, side, others) : LEAST_RATIO));
  const drawn = SIDES.filter((side) => ratios[side] < LEAST_RATIO);
  if (drawn.length === 0) return outline;
  const offPx = drawn.map((side) => (LOST_SHARE * lengthOf(outline.sheet, side)) / Math.max(1, ratios[side]));
  return doubting(outline, drawn, Math.max(...offPx));
}

const PLACES = 64;

/** Pixels on both sides of a line that are held against each other, and how far outside the side the line is laid; px of the copy. */
type Look = { readonly nearPx: number; readonly farPx: number; readonly outsidePx: readonly number[] };
const BROAD: Look = { nearPx: 2, farPx: 6, outsidePx: [9, 12, 15, 18, 21, 24, 28, 32] };
const FINE: Look = { nearPx: 1, farPx: 3, outsidePx: [6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30, 32, 34] };

/** Infinite where no ground is seen beside the side, or one without grain. */
function stepOverStreaks(sample: ColourSampler, sheet: Quad, side: Side, others: readonly Quad[]): number {
  const own = stepsAt(sample, sheet, side, BROAD, 0, others).filter((step) => step !== null);
  const axis = [0, 1, 2].map((channel) => median(own.map((step) => step[channel] as number)));
  const size = Math.hypot(...axis);
  const streaks = (look: Look) =>
    look.outsidePx.flatMap((px) => {
      const steps = stepsAt(sample, sheet, side, look, px, others);
      const halves = [steps.slice(0, PLACES / 2), steps.slice(PLACES / 2)].map((half) => Math.abs(meanAlong(half, axis)) / size);
      return halves.filter((streak) => !Number.isNaN(streak));
    });
  return size < MOST_OVER_GRAIN * median(streaks(FINE)) ? size / Math.max(0, ...streaks(BROAD)) : Number.POSITIVE_INFINITY;
}

/** NaN where less than half of the places are seen. */
function meanAlong(steps: readonly (readonly number[] | null)[], axis: readonly number[]): number {
  const seen = steps.filter((step) => step !== null);
  if (2 * seen.length < steps.length) return Number.NaN;
  return (
    seen.reduce((sum, step) => sum + step.reduce((dot, value, channel) => dot + value * (axis[channel] as number), 0), 0) / seen.length
  );
}

/** Colours inside less those outside, across the line, place by place; null where it leaves the frame or meets another print. */
function stepsAt(
  sample: ColourSampler,
  sheet: Quad,
  side: Side,
  { nearPx, farPx }: Look,
  outsidePx: number,
  others: readonly Quad[],
): (readonly number[] | null)[] {
  const [from, to] = endsOf(sheet, side);
  const length = lengthOf(sheet, side);
  const [ax, ay] = [(to.x - from.x) / length, (to.y - from.y) / length];
  const pixel = new Float64Array(3);
  return Array.from({ length: PLACES }, (_, place) => {
    const s = length * (0.06 + 0.88 * ((place + 0.5) / PLACES));
    const at = (px: number): Point => ({ x: from.x + ax * s + ay * px, y: from.y + ay * s - ax * px });
    if (others.some((other) => isInside(other, at(outsidePx + farPx)))) return null;
    const step = [0, 0, 0];
    for (let px = nearPx; px <= farPx; px++) {
      for (const way of [1, -1]) {
        const { x, y } = at(outsidePx + way * px);
        if (!sample(x, y, pixel)) return null;
        for (let channel = 0; channel < 3; channel++)
          step[channel] = (step[channel] as number) - (way * (pixel[channel] as number)) / (farPx - nearPx + 1);
      }
    }
    return step;
  });
}
