import { blurred, type GridPlane } from "../planes/grid-plane.ts";

const MEAN_SIGMA_PX = 4;
const SPREAD_SIGMA_PX = 8;
/** Detail of less than this (2 % in light) counts as noise and is not raised to the strength of the rest. */
const LEAST_SPREAD = 0.02;

/**
 * What is left of luminance when tone and light are taken out: ln Y less its local mean, over its local standard
 * deviation. Two captures of one print look alike in it, however they were lit. NaN counts as no detail.
 */
export function detailPlane(luminance: GridPlane): GridPlane {
  const { width, height } = luminance;
  const logs = { width, height, data: luminance.data.map((value) => Math.log(Math.max(1e-4, value))) };
  const mean = blurred(logs, MEAN_SIGMA_PX).data;
  const rest = { width, height, data: logs.data.map((value, at) => value - (mean[at] as number)) };
  const squares = blurred({ width, height, data: rest.data.map((value) => value * value) }, SPREAD_SIGMA_PX).data;
  return {
    width,
    height,
    data: rest.data.map((value, at) => (Number.isNaN(value) ? 0 : value / Math.hypot(LEAST_SPREAD, Math.sqrt(squares[at] as number)))),
  };
}

/** Correlation of two planes of one size, -1 to 1. */
export function correlation(one: Float32Array, other: Float32Array): number {
  let product = 0;
  let squaresOne = 0;
  let squaresOther = 0;
  for (let at = 0; at < one.length; at++) {
    const a = one[at] as number;
    const b = other[at] as number;
    if (Number.isNaN(a) || Number.isNaN(b)) continue;
    product += a * b;
    squaresOne += a * a;
    squaresOther += b * b;
  }
  return product / Math.sqrt(Math.max(1e-12, squaresOne * squaresOther));
}
