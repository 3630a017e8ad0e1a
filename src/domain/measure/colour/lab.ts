/** CIE L*, a*, b* relative to the D50 white of the profile connection space (ICC.1: 0.9642, 1, 0.8249). */
export type Lab = readonly [lightness: number, a: number, b: number];

const WHITE_X = 0.9642;
const WHITE_Z = 0.8249;
const EPSILON = 216 / 24389;
const KAPPA = 24389 / 27;

/** L*a*b* of X, Y, Z (D50, white Y = 1). Formula: CIE 15, with the exact fractions. */
export function labOf(x: number, y: number, z: number): Lab {
  const fx = response(x / WHITE_X);
  const fy = response(y);
  const fz = response(z / WHITE_Z);
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
}

/** L* (0..100) of luminance Y (0..1). */
export const lightnessOf = (luminance: number): number => 116 * response(luminance) - 16;

const response = (t: number) => (t > EPSILON ? Math.cbrt(t) : (KAPPA * t + 16) / 116);
