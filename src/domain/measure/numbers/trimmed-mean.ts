/**
 * Mean without the lowest and the highest `share` of the values; NaN of nothing. Unlike a median it does not stick at
 * one code when values of 8 bits are averaged.
 */
export function trimmedMean(values: ArrayLike<number>, share = 0.15): number {
  const sorted = new Float64Array(values).sort();
  const cut = Math.min(Math.floor(sorted.length * share), Math.floor((sorted.length - 1) / 2));
  const kept = sorted.subarray(cut, sorted.length - cut);
  return kept.reduce((sum, value) => sum + value, 0) / kept.length;
}
