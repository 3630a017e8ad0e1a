/**
 * The sRGB space: what an untagged file is read as, and what most tagged ones say they are.
 * Curve and primaries: IEC 61966-2-1:1999 with Amendment 1:2003.
 */

/** Linear light 0..1 of an sRGB value 0..1. */
export function srgbToLinear(value: number): number {
  return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
}

/** sRGB value 0..1 of linear light 0..1. */
export function linearToSrgb(linear: number): number {
  return linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055;
}

/** Linear light of the 256 codes of an 8-bit sRGB file. */
export const SRGB_LINEAR_8: Float32Array = Float32Array.from({ length: 256 }, (_, code) => srgbToLinear(code / 255));

let sixteenBit: Float32Array | null = null;

/** Linear light of the 65,536 codes of a 16-bit sRGB file; made on first use, since few files need it. */
export function srgbLinear16(): Float32Array {
  sixteenBit ??= Float32Array.from({ length: 65536 }, (_, code) => srgbToLinear(code / 65535));
  return sixteenBit;
}

/**
 * Linear sRGB to X, Y, Z relative to D50, row by row: the D65 matrix from the chromaticities
 * (R 0.64/0.33, G 0.30/0.60, B 0.15/0.06, white 0.3127/0.3290), then Bradford to D50 (ICC.1 Annex E).
 */
export const SRGB_TO_XYZ_D50: readonly number[] = product(
  [1.047886, 0.0229188, -0.0502161, 0.0295818, 0.9904835, -0.0170787, -0.0092519, 0.0150726, 0.7516781],
  [0.4123908, 0.3575843, 0.1804808, 0.212639, 0.7151687, 0.0721923, 0.0193308, 0.1191948, 0.9505322],
);

function product(left: readonly number[], right: readonly number[]): number[] {
  return Array.from({ length: 9 }, (_, index) => {
    const row = Math.floor(index / 3) * 3;
    const column = index % 3;
    return [0, 1, 2].reduce((sum, k) => sum + (left[row + k] as number) * (right[k * 3 + column] as number), 0);
  });
}
