import { median } from "../numbers/robust.ts";
import type { ReducedCopy } from "./reduced-copy.ts";

/** One of the colours that large plain areas have: L*, a*, b*. */
export type PlainColour = readonly [number, number, number];

const MOST_COLOURS = 6;
/** Widths of the bins in which pixels are counted, L* and a*, b*. */
const LIGHTNESS_BIN = 2.5;
const HUE_BIN = 3;
const LEAST_SHARE = 0.006;

/**
 * The commonest colours among the less textured half of the pixels. A print's border is one of them whatever it lies
 * on, which finds it on a patterned ground that has no one colour.
 */
export function plainColours(copy: ReducedCopy): PlainColour[] {
  const limit = median(copy.texture);
  const counts = new Map<number, number>();
  for (let at = 0; at < copy.lightness.length; at++) {
    if ((copy.texture[at] as number) > limit) continue;
    const key = keyOf(
      bin(copy.lightness[at] as number, LIGHTNESS_BIN),
      bin(copy.a[at] as number, HUE_BIN),
      bin(copy.b[at] as number, HUE_BIN),
    );
    counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  const colours: PlainColour[] = [];
  for (const [key, count] of [...counts].sort((p, q) => q[1] - p[1])) {
    if (colours.length === MOST_COLOURS || count < LEAST_SHARE * copy.lightness.length) break;
    const colour: PlainColour = [
      (Math.floor(key / 65536) + 0.5) * LIGHTNESS_BIN,
      (((key >> 8) & 255) - 127.5) * HUE_BIN,
      ((key & 255) - 127.5) * HUE_BIN,
    ];
    if (colours.every((other) => unlikeness(colour, other) > 2)) colours.push(colour);
  }
  return colours;
}

/** 1 where a pixel is within `reach` of a colour; at reach 1 a light sheet may change by 4 L* and 3 in hue. */
export function maskOf(copy: ReducedCopy, colour: PlainColour, reach: number): Uint8Array {
  const mask = new Uint8Array(copy.lightness.length);
  const square = reach * reach;
  for (let at = 0; at < mask.length; at++) {
    const l = ((copy.lightness[at] as number) - colour[0]) / 4;
    const a = ((copy.a[at] as number) - colour[1]) / 3;
    const b = ((copy.b[at] as number) - colour[2]) / 3;
    if (l * l + a * a + b * b < square) mask[at] = 1;
  }
  return mask;
}

const bin = (value: number, width: number) => Math.floor(value / width);
const keyOf = (l: number, a: number, b: number) => l * 65536 + ((a + 128) << 8) + (b + 128);
const unlikeness = (p: PlainColour, q: PlainColour) => Math.hypot((p[0] - q[0]) / 4, (p[1] - q[1]) / 3, (p[2] - q[2]) / 3);
