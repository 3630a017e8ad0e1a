import { borderOf } from "./border.ts";
import { type BorderPatches, borderPatches } from "./border-patches.ts";
import { lightnessOf } from "./lab.ts";
import { fitLight } from "./light-surface.ts";
import { SIDES } from "./lines.ts";
import type { Picture } from "./picture.ts";
import type { MeasureContext, Outline, Reading } from "./reading.ts";
import { trimmedMean } from "./trimmed-mean.ts";

/**
 * Unevenness of the light, in percent: standard deviation of L* over its mean along the border. The border is cut
 * into areas of about a twelfth of the sheet's length; each area's L* is the mean of its patches without the lowest
 * and highest 15 %, so that dust, texture and small glare do not count. The detail has the fall-off of the smooth
 * surface fitted to the luminance of the border.
 *
 * Needs: a border of 2 mm on three sides or more. Absent when more than 2 % of the border is clipped.
 * Not comparable when: the border has yellowed or faded unevenly, which reads as light.
 * Source: 36 CFR 1236.50, table 2 (lightness uniformity: standard deviation over mean of L*).
 */
export function borderEvenness(picture: Picture, outline: Outline | null, context: MeasureContext): Reading[] {
  const name = "borderLightnessSpreadPercent";
  if (!outline) return [{ name, absent: "the print was not found in the frame" }];
  const border = borderOf(outline, context);
  if (!border || border.sides.length < 3) return [{ name, absent: "a plain border of at least 2 mm was not seen on three sides or more" }];
  const patches = borderPatches(picture, outline, border);
  if (patches.clippedShare > MOST_CLIPPED)
    return [{ name, absent: "part of the border is clipped to white, so the light on it cannot be read" }];
  const lightness = areaLightness(patches);
  const light = fitLight(patches.u, patches.v, patches.luminance);
  if (lightness.length < FEWEST_AREAS || !light) return [{ name, absent: "too little of the border could be read" }];
  const mean = lightness.reduce((sum, value) => sum + value, 0) / lightness.length;
  const variance = lightness.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (lightness.length - 1);
  const onSheet = sheetGrid().map(({ u, v }) => light.at(u, v));
  return [
    {
      name,
      value: (100 * Math.sqrt(variance)) / mean,
      reliability: border.sides.length === 4 ? "firm" : "fair",
      ...(border.sides.length < 4 && { note: "Read on three sides: the fourth has no border wide enough." }),
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

const MOST_CLIPPED = 0.02;
const FEWEST_AREAS = 8;
const AREAS_ALONG = 12;
const FEWEST_PATCHES = 12;

/** L* of each area round the border. */
function areaLightness({ u, v, side, luminance }: BorderPatches): number[] {
  const areas = new Map<number, number[]>();
  luminance.forEach((value, index) => {
    const name = SIDES[side[index] as number];
    const along = (name === "top" || name === "bottom" ? u[index] : v[index]) as number;
    const key = (side[index] as number) * AREAS_ALONG + Math.min(AREAS_ALONG - 1, Math.floor(((along + 1) / 2) * AREAS_ALONG));
    const area = areas.get(key) ?? [];
    area.push(lightnessOf(value));
    areas.set(key, area);
  });
  return [...areas.values()].filter((area) => area.length >= FEWEST_PATCHES).map((area) => trimmedMean(area));
}

const sheetGrid = () => Array.from({ length: 81 }, (_, index) => ({ u: (index % 9) / 4 - 1, v: Math.floor(index / 9) / 4 - 1 }));
