/** The middle value; NaN of nothing, and of anything that holds NaN. Does not alter its argument. */
export function median(values: ArrayLike<number>): number {
  return medianOfRoom(new Float64Array(values));
}

/** Standard deviation of the bulk: 1.4826 × median absolute deviation from `centre`. */
export function robustSpread(values: ArrayLike<number>, centre = median(values)): number {
  const away = new Float64Array(values.length);
  for (let index = 0; index < away.length; index++) away[index] = Math.abs((values[index] as number) - centre);
  return 1.4826 * medianOfRoom(away);
}

/** The value that `share` (0..1) of the others lie below, to the nearest rank; NaN of nothing. The values hold no NaN. */
export function quantile(values: ArrayLike<number>, share: number): number {
  return ranked(new Float64Array(values), Math.round(share * (values.length - 1)));
}

/** The median of values that may be put in another order. */
export function medianOfRoom(kept: Float64Array): number {
  const length = kept.length;
  if (length === 0) return Number.NaN;
  for (let index = 0; index < length; index++) if (Number.isNaN(kept[index])) return Number.NaN;
  const middle = length >> 1;
  const upper = ranked(kept, middle);
  if (length % 2) return upper;
  // what stands before the middle is no larger than it: the other middle value is the largest of that
  let lower = Number.NEGATIVE_INFINITY;
  for (let index = 0; index < middle; index++) lower = Math.max(lower, kept[index] as number);
  return (lower + upper) / 2;
}

/** Puts the value of rank `rank` in its place, smaller ones before it (C. A. R. Hoare, "Algorithm 65: Find", 1961); answers it. */
export function ranked(values: Float64Array, rank: number): number {
  let from = 0;
  let to = values.length - 1;
  while (from < to) {
    const pivot = values[rank] as number;
    let low = from;
    let high = to;
    while (low <= high) {
      while ((values[low] as number) < pivot) low++;
      while ((values[high] as number) > pivot) high--;
      if (low > high) break;
      const swapped = values[low] as number;
      values[low++] = values[high] as number;
      values[high--] = swapped;
    }
    if (high < rank) from = low;
    if (low > rank) to = high;
  }
  return values[rank] ?? Number.NaN;
}
