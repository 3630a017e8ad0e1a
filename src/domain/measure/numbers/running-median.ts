/**
 * Median of the window round each value, `reach` to both sides. Towards the ends the window shrinks on both sides alike,
 * so that a slope leaves nothing behind. Values must not be NaN.
 */
export function runningMedian(values: Float64Array, reach: number): Float64Array {
  const result = new Float64Array(values.length);
  const sorted: number[] = [];
  let [from, to] = [0, 0];
  for (let index = 0; index < values.length; index++) {
    const half = Math.min(reach, index, values.length - 1 - index);
    for (; to <= index + half; to++) sorted.splice(placeOf(sorted, values[to] as number), 0, values[to] as number);
    for (; from < index - half; from++) sorted.splice(placeOf(sorted, values[from] as number), 1);
    result[index] = sorted[half] as number;
  }
  return result;
}

/** Where a value stands, or would stand, among sorted ones. */
function placeOf(sorted: readonly number[], value: number): number {
  let [low, high] = [0, sorted.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] as number) < value) low = middle + 1;
    else high = middle;
  }
  return low;
}
