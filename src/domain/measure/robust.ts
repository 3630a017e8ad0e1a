/** The middle value; NaN of nothing. Does not alter its argument. */
export function median(values: ArrayLike<number>): number {
  const sorted = Float64Array.from(values).sort();
  const middle = sorted.length >> 1;
  return sorted.length % 2 ? (sorted[middle] as number) : ((sorted[middle - 1] as number) + (sorted[middle] as number)) / 2;
}

/** Standard deviation of the bulk: 1.4826 × median absolute deviation from `centre`. */
export function robustSpread(values: ArrayLike<number>, centre = median(values)): number {
  return 1.4826 * median(Float64Array.from(values, (value) => Math.abs(value - centre)));
}
