import type { BorderPatches } from "../border/border-patches.ts";
import { fitLight, type LightSurface } from "../numbers/light-surface.ts";

/** The light that each channel sees on the border. */
export type LightColours = {
  readonly fields: readonly [LightSurface, LightSurface, LightSurface];
  /** the light that falls on the border: the same of the luminance */
  readonly luminance: LightSurface;
  /** largest difference between the shapes of two channels' light anywhere on the border, percent */
  readonly disagreePercent: number;
};

/** Above this the colour changes along the border: light of two colours, or paper that has yellowed unevenly. */
export const MOST_DISAGREEMENT_PERCENT = 1.5;

/** Several measures ask for the same light: it is fitted once for the same plain patches. */
const fitted = new WeakMap<Int32Array, LightColours | null>();

/** Of the patches that are `plain` (indices). Null when they do not fix the light of every channel. */
export function lightColours(patches: BorderPatches, plain: Int32Array): LightColours | null {
  const known = fitted.get(plain);
  if (known !== undefined) return known;
  const colours = fitColours(patches, plain);
  fitted.set(plain, colours);
  return colours;
}

function fitColours({ u, v, red, green, blue, luminance }: BorderPatches, plain: Int32Array): LightColours | null {
  const [r, g, b, y] = [red, green, blue, luminance].map((values) => fitLight(u, v, values, plain));
  if (!r || !g || !b || !y) return null;
  const disagree = Math.max(
    ...(
      [
        [r, g],
        [g, b],
        [r, b],
      ] as const
    ).map(([one, other]) => rangeOfRatio(one, other, u, v, plain)),
  );
  return { fields: [r, g, b], luminance: y, disagreePercent: 100 * disagree };
}

function rangeOfRatio(one: LightSurface, other: LightSurface, u: Float32Array, v: Float32Array, plain: Int32Array): number {
  let [lowest, highest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let k = 0; k < plain.length; k += 16) {
    const index = plain[k] as number;
    const [x, y] = [u[index] as number, v[index] as number];
    const log = Math.log(one.at(x, y) / other.at(x, y));
    lowest = Math.min(lowest, log);
    highest = Math.max(highest, log);
  }
  return highest - lowest;
}
