/** A point in time with what was read, e.g. years since the first capture and a loss of density. */
export type DatedValue = { readonly at: number; readonly value: number };

/** The straight line of least squares through points, with what is needed to say how sure it is. */
export type StraightLine = {
  readonly intercept: number;
  readonly slope: number;
  /** standard deviation of the points about the line, n - 2 degrees of freedom */
  readonly residual: number;
  readonly points: number;
  readonly meanAt: number;
  /** sum of squared distances from the mean of `at` */
  readonly spreadAt: number;
};

/** Null below three points, or where all are at one time. Formula: JCGM 100:2008, H.3.2. */
export function straightLine(points: readonly DatedValue[]): StraightLine | null {
  const n = points.length;
  if (n < 3) return null;
  const meanAt = points.reduce((sum, { at }) => sum + at, 0) / n;
  const meanValue = points.reduce((sum, { value }) => sum + value, 0) / n;
  const spreadAt = points.reduce((sum, { at }) => sum + (at - meanAt) ** 2, 0);
  if (!(spreadAt > 0)) return null;
  const slope = points.reduce((sum, { at, value }) => sum + (at - meanAt) * (value - meanValue), 0) / spreadAt;
  const intercept = meanValue - slope * meanAt;
  const squares = points.reduce((sum, { at, value }) => sum + (value - intercept - slope * at) ** 2, 0);
  return { intercept, slope, residual: Math.sqrt(squares / (n - 2)), points: n, meanAt, spreadAt };
}

export const valueOn = ({ intercept, slope }: StraightLine, at: number): number => intercept + slope * at;

/** Standard uncertainty of the line's height at a time, where its points scatter by `scatter` (JCGM 100:2008, H.3.4). */
export const uncertaintyOn = ({ points, meanAt, spreadAt }: StraightLine, at: number, scatter: number): number =>
  scatter * Math.sqrt(1 / points + (at - meanAt) ** 2 / spreadAt);

/**
 * When the line reaches a value, and between which times that may be: where value and line differ by no more than `times`
 * uncertainties of the line (E. C. Fieller, "Some problems in interval estimation", 1954; from memory). `latest` is null
 * where the slope may as well be nought: then there is no latest time.
 */
export function reaches(
  line: StraightLine,
  value: number,
  scatter: number,
  times: number,
): { readonly at: number; readonly earliest: number; readonly latest: number | null } | null {
  const { slope, meanAt, spreadAt, points } = line;
  if (slope === 0) return null;
  const rise = value - valueOn(line, meanAt);
  const reach = (times * scatter) ** 2;
  // (rise - slope d)² = reach (1/n + d²/spread) for d = at - meanAt
  const a = slope ** 2 - reach / spreadAt;
  const b = -2 * rise * slope;
  const c = rise ** 2 - reach / points;
  const root = b ** 2 - 4 * a * c;
  const at = meanAt + rise / slope;
  if (a <= 0) {
    // the interval is open at the far end: only its near end bounds the time
    if (root <= 0) return null;
    const ends = [(-b + Math.sqrt(root)) / (2 * a), (-b - Math.sqrt(root)) / (2 * a)].filter(
      (d) => Math.sign(d) === Math.sign(rise / slope),
    );
    return ends.length === 0 ? null : { at, earliest: meanAt + Math.min(...ends), latest: null };
  }
  const ends = [(-b - Math.sqrt(root)) / (2 * a), (-b + Math.sqrt(root)) / (2 * a)];
  return { at, earliest: meanAt + Math.min(...ends), latest: meanAt + Math.max(...ends) };
}
