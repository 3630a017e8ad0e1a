import { type MarkedArea, markedArea } from "../marked-area.ts";

const CELLS = 48;
/** Resolution lost against the sharpest place, from which a place is marked: what the eye sees beside it. Common practice, no source. */
const LEAST_LOST = 0.2;

/** Where a sheet is softer than at its sharpest place, by the variance of the blur at a place of it, each coordinate from -1 to 1; none where it is even. */
export function softArea(varianceAt: (u: number, v: number) => number): readonly MarkedArea[] {
  const variances = Float64Array.from({ length: CELLS * CELLS }, (_, at) =>
    varianceAt((2 * ((at % CELLS) + 0.5)) / CELLS - 1, (2 * (Math.floor(at / CELLS) + 0.5)) / CELLS - 1),
  );
  const sharpest = variances.reduce((least, value) => Math.min(least, value), Number.POSITIVE_INFINITY);
  const limit = Math.max(0, sharpest) / (1 - LEAST_LOST) ** 2;
  const area = markedArea(
    "sheet",
    Uint8Array.from(variances, (value) => (value > limit ? 1 : 0)),
    CELLS,
    CELLS,
  );
  return area.loops.length > 0 ? [area] : [];
}
