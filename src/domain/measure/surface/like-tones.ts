import { commonPlaces, matchedOnto } from "../laying/matched.ts";
import type { GridPlane } from "../planes/grid-plane.ts";

/** Added to all light, so that noise of the deepest shadows is no contrast. */
const DARKEST = 0.01;
const FEWEST_PLACES = 400;

/** ln of light, all in the tones of the first; NaN where any has nothing and along the rim. Null where too little is common. */
export function lnInLikeTones(planes: readonly GridPlane[], marginPx: number): GridPlane[] | null {
  const [first, ...others] = planes as [GridPlane, ...GridPlane[]];
  const places = commonPlaces(planes, marginPx);
  if (places.length < FEWEST_PLACES) return null;
  const asFirst = [(at: number) => first.data[at] as number, ...others.map((other) => matchedOnto(first, other, places).expectedAt)];
  return asFirst.map((lightAt) => {
    const data = new Float32Array(first.data.length).fill(Number.NaN);
    for (const at of places) data[at] = Math.log(DARKEST + Math.max(0, lightAt(at)));
    return { width: first.width, height: first.height, data };
  });
}
