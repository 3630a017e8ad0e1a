/** Spearman's rank correlation, ties given their mean rank; NaN below three pairs. Source: Spearman 1904. */
export function rankCorrelation(pairs: readonly (readonly [number, number])[]): number {
  if (pairs.length < 3) return Number.NaN;
  const a = ranks(pairs.map(([one]) => one));
  const b = ranks(pairs.map(([, other]) => other));
  const mean = (pairs.length + 1) / 2;
  let [ab, aa, bb] = [0, 0, 0];
  for (let index = 0; index < pairs.length; index++) {
    const da = (a[index] as number) - mean;
    const db = (b[index] as number) - mean;
    ab += da * db;
    aa += da * da;
    bb += db * db;
  }
  return ab / Math.sqrt(aa * bb);
}

/** Of what is known; NaN where nothing is. Of an even number, the mean of the two in the middle. */
export function middleOf(values: readonly (number | null | undefined)[]): number {
  const known = values.filter((value): value is number => typeof value === "number").toSorted((a, b) => a - b);
  const half = known.length / 2;
  return ((known[Math.ceil(half) - 1] ?? Number.NaN) + (known[Math.floor(half)] ?? Number.NaN)) / 2;
}

function ranks(values: readonly number[]): number[] {
  return values.map((value) => {
    const below = values.filter((other) => other < value).length;
    const equal = values.filter((other) => other === value).length;
    return below + (equal + 1) / 2;
  });
}
