import type { Picture } from "../picture.ts";

/** For R, G, B: what every code of the channel adds to the luminance Y. */
export type LightShares = readonly [Float64Array, Float64Array, Float64Array];

/** Several measures add up luminances: the tables are made once for each picture. */
const known = new WeakMap<Picture, LightShares>();

/** With these, pixels need only be summed; the same numbers as `luminanceAt` answers. */
export function lightShares(picture: Picture): LightShares {
  const before = known.get(picture);
  if (before) return before;
  const shares: LightShares = [shareOf(picture, 0), shareOf(picture, 1), shareOf(picture, 2)];
  known.set(picture, shares);
  return shares;
}

function shareOf({ linearOf, toXyzD50 }: Picture, channel: 0 | 1 | 2): Float64Array {
  const light = linearOf[channel];
  const weight = toXyzD50[3 + channel] as number;
  const shares = new Float64Array(light.length);
  for (let code = 0; code < shares.length; code++) shares[code] = weight * (light[code] as number);
  return shares;
}
