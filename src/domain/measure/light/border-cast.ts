import type { BorderPatches } from "../border/border-patches.ts";
import { HOLDS_NO_COLOUR, isColourless } from "../colour/colourless.ts";
import { type Lab, labOf } from "../colour/lab.ts";
import { lightColours, MOST_DISAGREEMENT_PERCENT } from "../colour/light-colours.ts";
import type { Side } from "../lines.ts";
import type { LightSurface } from "../numbers/light-surface.ts";
import { evenlyWithin } from "../numbers/standard-uncertainty.ts";
import { trimmedMean } from "../numbers/trimmed-mean.ts";
import type { Picture } from "../picture.ts";
import type { MeasureContext, Outline, Reading } from "../reading.ts";
import { type BorderShine, borderShine, MOST_CLIPPED, shineLeavesTooLittle } from "./border-shine.ts";

/**
 * Colour of the border against a neutral: CIELAB a* (green to red) and b* (blue to yellow) under D50, and chroma C* =
 * √(a*² + b*²), of the mean X, Y, Z of its patches after the smooth light surface is divided out (relative to its own
 * mean), the lowest and highest 15 % left out, and what shines (border-shine.ts) with them. It is the colour of the light times that of the paper, and paper yellows:
 * a border that reads b* +4 may be well captured. How white the border of a format was when new, or is at an age, nobody
 * has published in figures that could be found, so it is not held against such a white.
 *
 * Needs: a border of 2 mm on one side or more, and a file in colour. Absent when more than 2 % of the border is clipped, or when
 * less than half is left beside what shines.
 * Source: CIE 15 (CIELAB); the white of ICC.1.
 */
export function borderCast(
  picture: Picture,
  outline: Outline | null,
  context: MeasureContext,
  shine: BorderShine | string = borderShine(picture, outline, context),
): Reading[] {
  const found = colourOfBorder(picture, shine);
  if (typeof found === "string") return NAMES.map((name) => ({ name, absent: found }));
  const { lab, disagreePercent, sides } = found;
  const [lightness, a, b] = lab;
  const isPatchy = disagreePercent > MOST_DISAGREEMENT_PERCENT;
  const values = { borderCastA: a, borderCastB: b, borderCastChroma: Math.hypot(a, b) };
  return NAMES.map((name) => ({
    name,
    value: values[name],
    reliability: isPatchy ? "weak" : "fair",
    spread: SPREAD,
    note: isPatchy
      ? "The colour changes along the border: mixed light, or paper that has yellowed unevenly."
      : "Light and aged paper together: an old border is seldom neutral, however good the capture.",
    detail: { lightness, a, b, channelsDisagreePercent: disagreePercent, sides },
  }));
}

const NAMES = ["borderCastA", "borderCastB", "borderCastChroma"] as const;
const FEWEST_PATCHES = 100;
/** On sixteen drawn prints under tinted, uneven light a* and b* were within 0.15; real papers are less plain, and are taken to lie within 0.3 (own choice). */
const SPREAD = evenlyWithin(0.3);

type Colour = { readonly lab: Lab; readonly disagreePercent: number; readonly sides: readonly Side[] };

/** Or why it cannot be read. */
function colourOfBorder(picture: Picture, shine: BorderShine | string): Colour | string {
  if (isColourless(picture)) return HOLDS_NO_COLOUR;
  if (typeof shine === "string") return shine;
  const { border, patches, plain } = shine;
  if (patches.clippedShare > MOST_CLIPPED) return "part of the border is clipped to white, so its colour is lost";
  const tooLittle = shineLeavesTooLittle(shine);
  if (tooLittle) return tooLittle;
  const { red, green, blue } = patches;
  const colours = lightColours(patches, plain);
  if (plain.length < FEWEST_PATCHES || !colours) return "too little of the border could be read";
  const levels = lightOn(plain, patches, colours.luminance);
  const [r, g, b] = [red, green, blue].map((channel) => meanUnderEvenLight(channel, plain, levels)) as [number, number, number];
  const m = picture.toXyzD50 as readonly [number, number, number, number, number, number, number, number, number];
  const lab = labOf(m[0] * r + m[1] * g + m[2] * b, m[3] * r + m[4] * g + m[5] * b, m[6] * r + m[7] * g + m[8] * b);
  return { lab, disagreePercent: colours.disagreePercent, sides: border.sides };
}

function lightOn(plain: Int32Array, { u, v }: BorderPatches, luminance: LightSurface): Float32Array {
  const levels = new Float32Array(plain.length);
  for (let k = 0; k < levels.length; k++) levels[k] = luminance.at(u[plain[k] as number] as number, v[plain[k] as number] as number);
  return levels;
}

/** `levels`: of each of the plain patches the light on it. */
function meanUnderEvenLight(channel: Float32Array, plain: Int32Array, levels: Float32Array): number {
  let sum = 0;
  for (let k = 0; k < levels.length; k++) sum += levels[k] as number;
  const mean = sum / levels.length;
  const even = new Float32Array(plain.length);
  for (let k = 0; k < even.length; k++) even[k] = ((channel[plain[k] as number] as number) / (levels[k] as number)) * mean;
  return trimmedMean(even);
}
