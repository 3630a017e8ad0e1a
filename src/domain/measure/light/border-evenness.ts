import type { BorderPatches } from "../border/border-patches.ts";
import { lightnessOf } from "../colour/lab.ts";
import { type LightColours, lightColours, MOST_DISAGREEMENT_PERCENT } from "../colour/light-colours.ts";
import { SIDES, type Side } from "../lines.ts";
import type { LightSurface } from "../numbers/light-surface.ts";
import { trimmedMean } from "../numbers/trimmed-mean.ts";
import type { Picture } from "../picture.ts";
import type { MeasureContext, Outline, Reading } from "../reading.ts";
import { type BorderShine, borderShine, MOST_CLIPPED, shineLeavesTooLittle } from "./border-shine.ts";

/**
 * Unevenness of the light along the border, read in two ways:
 *
 * - evennessPercent: what the darkest place of the border lacks of the brightest, 100 (1 - lowest / highest), of the
 *   smooth surface fitted to its luminance (light-surface.ts), so that dust, texture and small glare do not count. 0 is
 *   even. The detail has the same of each channel: paper that has yellowed on one side darkens blue most and red least.
 * - borderLightnessSpreadPercent: standard deviation of L* over its mean. The border is cut into areas of about a
 *   twelfth of the sheet's length; each area's L* is the mean of its patches without the lowest and highest 15 %.
 *
 * What shines on the border (border-shine.ts), and what lies beside it, is left out of both: a mirrored window is no uneven light.
 *
 * Needs: a border of 2 mm on three sides or more. Absent when more than 2 % of the border is clipped, or when less than half is left beside what shines.
 * Not comparable when: the border has yellowed or faded unevenly, which reads as light; where the channels disagree,
 * evennessPercent is less certain.
 * Source: 36 CFR 1236.50, table 2 (lightness uniformity: standard deviation over mean of L*); the loss of light is
 * common practice, no source.
 */
export function borderEvenness(
  picture: Picture,
  outline: Outline | null,
  context: MeasureContext,
  shine: BorderShine | string = borderShine(picture, outline, context),
): Reading[] {
  const found = lightOnBorder(shine);
  if (typeof found === "string") return NAMES.map((name) => ({ name, absent: found }));
  const { patches, plain, light, colours, lightness, sides } = found;
  const mean = lightness.reduce((sum, value) => sum + value, 0) / lightness.length;
  const variance = lightness.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (lightness.length - 1);
  const onSheet = sheetGrid().map(({ u, v }) => light.at(u, v));
  const isYellowed = colours.disagreePercent > MOST_DISAGREEMENT_PERCENT;
  const shines = plain.length < MOST_PLAIN * patches.cell.length;
  const notes = [
    ...(shines ? ["Places that shine are left out, so that the light may be less even than is seen."] : []),
    ...(sides.length < 4 ? ["Read on three sides: the fourth has no border wide enough."] : []),
    ...(isYellowed ? [YELLOWED] : []),
  ];
  const [red, green, blue] = colours.fields.map((field) => lossPercent(field, patches, plain));
  const certainty = (sides.length === 4 ? 0 : 1) + (isYellowed ? 1 : 0) + (shines ? 1 : 0);
  return [
    {
      name: "evennessPercent",
      value: lossPercent(light, patches, plain),
      reliability: (["firm", "fair", "weak"] as const)[certainty] ?? "weak",
      // how the light goes on below what shines is not seen
      ...(shines && { bound: "lower" as const }),
      ...(notes.length > 0 && { note: notes.join(" ") }),
      detail: {
        ofEachChannel: { redPercent: red, greenPercent: green, bluePercent: blue },
        channelsDisagreePercent: colours.disagreePercent,
        sides,
      },
    },
    {
      name: "borderLightnessSpreadPercent",
      value: (100 * Math.sqrt(variance)) / mean,
      reliability: sides.length === 4 && !shines ? "firm" : "fair",
      ...(certainty > (isYellowed ? 1 : 0) && { note: notes.filter((note) => note !== YELLOWED).join(" ") }),
      detail: {
        areas: lightness.length,
        meanLightness: mean,
        fallOffPercent: 100 * (1 - Math.min(...onSheet) / Math.max(...onSheet)),
        corners: { topLeft: light.at(-1, -1), topRight: light.at(1, -1), bottomRight: light.at(1, 1), bottomLeft: light.at(-1, 1) },
        centre: light.at(0, 0),
      },
    },
  ];
}

const YELLOWED = "The colour changes along the border, so that part of this may be paper that has yellowed unevenly.";
/** Where less of the border is plain, shine was left out that could matter. */
const MOST_PLAIN = 0.98;
const NAMES = ["evennessPercent", "borderLightnessSpreadPercent"] as const;

type OnBorder = {
  readonly patches: BorderPatches;
  readonly plain: Int32Array;
  readonly light: LightSurface;
  readonly colours: LightColours;
  readonly lightness: readonly number[];
  readonly sides: readonly Side[];
};

/** Or why it cannot be read. */
function lightOnBorder(shine: BorderShine | string): OnBorder | string {
  if (typeof shine === "string") return shine;
  const { border, patches, plain } = shine;
  if (border.sides.length < 3) return "a plain border of at least 2 mm was not seen on three sides or more";
  if (patches.clippedShare > MOST_CLIPPED) return "part of the border is clipped to white, so the light on it cannot be read";
  const tooLittle = shineLeavesTooLittle(shine);
  if (tooLittle) return tooLittle;
  const lightness = areaLightness(patches, plain);
  const colours = lightColours(patches, plain);
  if (lightness.length < FEWEST_AREAS || !colours) return "too little of the border could be read";
  return { patches, plain, light: colours.luminance, colours, lightness, sides: border.sides };
}

function lossPercent(light: LightSurface, { u, v }: BorderPatches, plain: Int32Array): number {
  let [lowest, highest] = [Number.POSITIVE_INFINITY, 0];
  for (const index of plain) {
    const level = light.at(u[index] as number, v[index] as number);
    lowest = Math.min(lowest, level);
    highest = Math.max(highest, level);
  }
  return 100 * (1 - lowest / highest);
}

const FEWEST_AREAS = 8;
const AREAS_ALONG = 12;
const FEWEST_PATCHES = 12;

/** L* of each area round the border. */
function areaLightness({ u, v, side, luminance }: BorderPatches, plain: Int32Array): number[] {
  const areas = new Map<number, number[]>();
  for (const index of plain) {
    const name = SIDES[side[index] as number];
    const along = (name === "top" || name === "bottom" ? u[index] : v[index]) as number;
    const key = (side[index] as number) * AREAS_ALONG + Math.min(AREAS_ALONG - 1, Math.floor(((along + 1) / 2) * AREAS_ALONG));
    const area = areas.get(key) ?? [];
    area.push(lightnessOf(luminance[index] as number));
    areas.set(key, area);
  }
  return [...areas.values()].filter((area) => area.length >= FEWEST_PATCHES).map((area) => trimmedMean(area));
}

const sheetGrid = () => Array.from({ length: 81 }, (_, index) => ({ u: (index % 9) / 4 - 1, v: Math.floor(index / 9) / 4 - 1 }));
