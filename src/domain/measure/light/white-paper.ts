import type { BorderPatches } from "../border/border-patches.ts";
import { labOf } from "../colour/lab.ts";
import { median } from "../numbers/robust.ts";
import type { Picture } from "../picture.ts";

/** Luminance over that of the paper which no picture has. */
export const ABOVE_PAPER = 1.06;
/** A border this light and this near to neutral is taken for the white of the paper. */
const LEAST_LIGHTNESS = 80;
const MOST_CHROMA = 20;

/** Whether the border can be taken for the white of the picture's own paper, than which nothing of the picture is brighter. */
export function isWhitePaper(
  { red, green, blue }: Pick<BorderPatches, "red" | "green" | "blue">,
  m: Picture["toXyzD50"],
  leastLightness = LEAST_LIGHTNESS,
): boolean {
  const rgb = [median(red), median(green), median(blue)];
  const [x, y, z] = [0, 3, 6].map((row) => rgb.reduce((sum, value, channel) => sum + value * (m[row + channel] as number), 0));
  const [lightness, a, b] = labOf(x as number, y as number, z as number);
  return lightness >= leastLightness && Math.hypot(a, b) <= MOST_CHROMA;
}
