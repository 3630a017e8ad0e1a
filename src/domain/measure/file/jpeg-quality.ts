/** ITU-T T.81, Annex K, table K.1 (luminance), natural order. */
export const K1: readonly number[] = [
  16, 11, 10, 16, 24, 40, 51, 61, 12, 12, 14, 19, 26, 58, 60, 55, 14, 13, 16, 24, 40, 57, 69, 56, 14, 17, 22, 29, 51, 87, 80, 62, 18, 22,
  37, 56, 68, 109, 103, 77, 24, 35, 55, 64, 81, 104, 113, 92, 49, 64, 78, 87, 103, 121, 120, 101, 72, 92, 95, 98, 112, 100, 103, 99,
];

/** ITU-T T.81, Annex K, table K.2 (chrominance), natural order. */
export const K2: readonly number[] = [
  17, 18, 24, 47, 99, 99, 99, 99, 18, 21, 26, 66, 99, 99, 99, 99, 24, 26, 56, 99, 99, 99, 99, 99, 47, 66, 99, 99, 99, 99, 99, 99, 99, 99,
  99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99,
];

/**
 * The table that the common scale of 1 to 100 makes of a base table, as the Independent JPEG Group defined it:
 * S = floor(5000 / Q) below 50, else 200 - 2 Q; entry = floor((base · S + 50) / 100), kept within 1 to 255.
 */
export function scaledTable(base: readonly number[], quality: number): number[] {
  const scale = quality < 50 ? Math.floor(5000 / quality) : 200 - 2 * quality;
  return base.map((entry) => Math.min(255, Math.max(1, Math.floor((entry * scale + 50) / 100))));
}

/** The quality whose luminance table lies nearest, and the sum of the absolute differences of its 64 entries. */
export function nearestQuality(luminance: readonly number[]): { readonly quality: number; readonly difference: number } {
  let best = { quality: 100, difference: Number.POSITIVE_INFINITY };
  for (let quality = 100; quality >= 1; quality--) {
    const difference = differenceOf(scaledTable(K1, quality), luminance);
    if (difference < best.difference) best = { quality, difference };
  }
  return best;
}

export const differenceOf = (one: readonly number[], other: readonly number[]): number =>
  one.reduce((sum, entry, index) => sum + Math.abs(entry - (other[index] ?? 0)), 0);
