/**
 * Exact two-sided sign test: how likely so lopsided a count would be if better and worse were equally likely for every print.
 * Ties say nothing and are left out. W. J. Conover, Practical Nonparametric Statistics, 3rd edition, 1999, section 3.4 (from memory).
 * @returns 1 where nothing is left to count
 */
export function signTest(better: number, worse: number): number {
  const n = better + worse;
  const fewer = Math.min(better, worse);
  let tail = 0;
  // the terms of the binomial distribution by logarithms, so that many prints do not overflow
  let logTerm = -n * Math.LN2;
  for (let k = 0; k <= fewer; k++) {
    tail += Math.exp(logTerm);
    logTerm += Math.log(n - k) - Math.log(k + 1);
  }
  return Math.min(1, 2 * tail);
}

/** The fewest pairs with which the test can fall below a level at all, were they all of one sign: 6 for 5 %. */
export const fewestPairs = (level: number): number => Math.ceil(1 - Math.log2(level));

/**
 * Probabilities made honest for asking several questions at once, in the order given: S. Holm, Scandinavian Journal of Statistics 6,
 * 1979, 65–70 (from memory). The smallest is multiplied by the number of questions, the next by one less, and none falls below the one before.
 */
export function holm(probabilities: readonly number[]): number[] {
  const order = probabilities.map((_, index) => index).toSorted((a, b) => (probabilities[a] ?? 1) - (probabilities[b] ?? 1));
  const adjusted = new Array<number>(probabilities.length).fill(1);
  let before = 0;
  order.forEach((index, rank) => {
    before = Math.max(before, Math.min(1, (probabilities[index] ?? 1) * (probabilities.length - rank)));
    adjusted[index] = before;
  });
  return adjusted;
}
