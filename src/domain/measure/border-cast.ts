import { borderOf } from "./border.ts";
import { borderPatches } from "./border-patches.ts";
import { labOf } from "./lab.ts";
import { fitLight, type LightSurface } from "./light-surface.ts";
import type { Picture } from "./picture.ts";
import type { MeasureContext, Outline, Reading } from "./reading.ts";
import { trimmedMean } from "./trimmed-mean.ts";

/**
 * Colour of the border: CIELAB chroma C* = √(a*² + b*²) under D50, of the mean X, Y, Z of its patches after the smooth
 * light surface is divided out (relative to its own mean), the lowest and highest 15 % left out. It is the colour of
 * the light times that of the paper, and paper yellows: a border that reads b* +4 may be well captured.
 *
 * Needs: a border of 2 mm on one side or more. Absent when more than 2 % of the border is clipped.
 * Source: CIE 15 (CIELAB); the white of ICC.1.
 */
export function borderCast(picture: Picture, outline: Outline | null, context: MeasureContext): Reading[] {
  const name = "borderCastChroma";
  if (!outline) return [{ name, absent: "the print was not found in the frame" }];
  const border = borderOf(outline, context);
  if (!border) return [{ name, absent: "no plain border of at least 2 mm was seen" }];
  const patches = borderPatches(picture, outline, border);
  if (patches.clippedShare > MOST_CLIPPED) return [{ name, absent: "part of the border is clipped to white, so its colour is lost" }];
  const { u, v, red, green, blue, luminance } = patches;
  const light = fitLight(u, v, luminance);
  const fields = [red, green, blue].map((channel) => fitLight(u, v, channel));
  if (luminance.length < FEWEST_PATCHES || !light || fields.includes(null))
    return [{ name, absent: "too little of the border could be read" }];
  const [r, g, b] = [red, green, blue].map((channel) => meanUnderEvenLight(channel, u, v, light)) as [number, number, number];
  const m = picture.toXyzD50 as readonly [number, number, number, number, number, number, number, number, number];
  const [lightness, a, bStar] = labOf(m[0] * r + m[1] * g + m[2] * b, m[3] * r + m[4] * g + m[5] * b, m[6] * r + m[7] * g + m[8] * b);
  const disagreement = 100 * fieldDifference(fields as LightSurface[], u, v);
  const isPatchy = disagreement > MOST_DISAGREEMENT_PERCENT;
  return [
    {
      name,
      value: Math.hypot(a, bStar),
      reliability: isPatchy ? "weak" : "fair",
      spread: SPREAD,
      note: isPatchy
        ? "The colour changes along the border: mixed light, or paper that has yellowed unevenly."
        : "Light and aged paper together: an old border is seldom neutral, however good the capture.",
      detail: { lightness, a, b: bStar, channelsDisagreePercent: disagreement, sides: border.sides },
    },
  ];
}

const MOST_CLIPPED = 0.02;
const FEWEST_PATCHES = 100;
const MOST_DISAGREEMENT_PERCENT = 1.5;
/** On sixteen drawn prints under tinted, uneven light a* and b* were within 0.15; real papers are less plain. */
const SPREAD = 0.3;

function meanUnderEvenLight(channel: Float32Array, u: Float32Array, v: Float32Array, light: LightSurface): number {
  const levels = channel.map((_, index) => light.at(u[index] as number, v[index] as number));
  const mean = levels.reduce((sum, level) => sum + level, 0) / levels.length;
  return trimmedMean(channel.map((value, index) => (value / (levels[index] as number)) * mean));
}

/** Largest difference between the shapes of the channels' light, anywhere on the border. */
function fieldDifference(fields: readonly LightSurface[], u: Float32Array, v: Float32Array): number {
  let most = 0;
  const ratios = [
    [0, 1],
    [1, 2],
    [0, 2],
  ] as const;
  for (const [first, second] of ratios) {
    const logs: number[] = [];
    for (let index = 0; index < u.length; index += 16) {
      const [x, y] = [u[index] as number, v[index] as number];
      logs.push(Math.log((fields[first] as LightSurface).at(x, y) / (fields[second] as LightSurface).at(x, y)));
    }
    most = Math.max(most, Math.max(...logs) - Math.min(...logs));
  }
  return most;
}
