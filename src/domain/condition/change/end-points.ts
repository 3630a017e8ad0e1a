import type { ChangeName } from "./change-names.ts";
import { type DatedValue, reaches, straightLine } from "./straight-line.ts";

/** A published limit of change at which a print counts as spent. */
export type EndPoint = {
  readonly name: ChangeName;
  readonly limit: number;
  readonly label: string;
  readonly source: string;
  /** how the figure is known to us */
  readonly known: "quoted" | "from memory";
};

export const LIMITS_STANDARD =
  "ISO 18909:2022, Photography — Processed photographic colour films and paper prints — Methods for measuring image stability";
const QUOTED = `${LIMITS_STANDARD}: illustrative limit, read in a quotation`;
const MEMORY = `${LIMITS_STANDARD}: illustrative limit, from memory`;

/**
 * The standard calls its limits illustrative: each user may set others. It states them for Status A densities of patches that start at
 * 1.0, so that a print's own places, read in red, green and blue light, agree only roughly. A print is spent once any of them is reached.
 */
export const END_POINTS: readonly EndPoint[] = [
  { name: "redDensityLoss", limit: 0.3, label: "30 % loss from density 1.0, cyan dye", source: QUOTED, known: "quoted" },
  { name: "greenDensityLoss", limit: 0.3, label: "30 % loss from density 1.0, magenta dye", source: QUOTED, known: "quoted" },
  { name: "blueDensityLoss", limit: 0.3, label: "30 % loss from density 1.0, yellow dye", source: QUOTED, known: "quoted" },
  { name: "densityBalanceShift", limit: 0.15, label: "Colour balance shifted by 0.15", source: MEMORY, known: "from memory" },
  { name: "borderRedDensityGain", limit: 0.1, label: "Paper white stained by 0.10, red light", source: MEMORY, known: "from memory" },
  { name: "borderGreenDensityGain", limit: 0.1, label: "Paper white stained by 0.10, green light", source: MEMORY, known: "from memory" },
  { name: "borderBlueDensityGain", limit: 0.1, label: "Paper white stained by 0.10, blue light", source: MEMORY, known: "from memory" },
  { name: "borderBalanceShift", limit: 0.06, label: "Colour of paper white shifted by 0.06", source: MEMORY, known: "from memory" },
];

export type QualifiedValue = DatedValue & {
  /** k = 1 */
  readonly standardUncertainty: number;
  /** false where nobody knows how the capture was taken */
  readonly isQualified: boolean;
};

export type TimeToEnd =
  | {
      /** years from the first capture */
      readonly years: number;
      readonly earliest: number;
      /** null: the change may as well have stopped */
      readonly latest: number | null;
    }
  | { readonly absent: string };

export const FEWEST_POINTS = 3;

/** 97.5 % points of Student's t for 1 to 10 degrees of freedom, then every further one as the last (as any table gives; ISO 2602). */
const STUDENT = [12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228];
const COVERAGE = 2;

/**
 * Years until a limit is reached if change goes on as it did: a straight line through three or more qualified captures, with the
 * interval of about 95 % in which it crosses the limit. Points scatter either as they do about the line (times Student's t) or as
 * their own uncertainties say (times 2), whichever is wider: few points may lie on a line by chance. Own choice, no source.
 * Dyes rarely fade evenly; this is no promise.
 */
export function timeToEnd(values: readonly QualifiedValue[], limit: number): TimeToEnd {
  const qualified = values.filter(({ isQualified }) => isQualified);
  if (qualified.length < FEWEST_POINTS)
    return {
      absent: `${qualified.length} of ${FEWEST_POINTS} dated captures whose method is known; with ${FEWEST_POINTS} or more the years can be told`,
    };
  const line = straightLine(qualified);
  if (!line) return { absent: "all captures are of one day" };
  if (line.slope <= 0) return { absent: "no change towards this limit is seen" };
  // the first, which the others are held against, has none of its own: its error is in theirs
  const doubts = qualified.map(({ standardUncertainty }) => standardUncertainty).filter((doubt) => doubt > 0);
  const own = Math.sqrt(doubts.reduce((sum, doubt) => sum + doubt ** 2, 0) / Math.max(1, doubts.length));
  const student = STUDENT[Math.min(STUDENT.length, line.points - 2) - 1] as number;
  const scatter = Math.max(own, (student * line.residual) / COVERAGE);
  const found = reaches(line, limit, scatter, COVERAGE);
  if (!found) return { absent: "the captures agree within their uncertainty, so that no time can be told" };
  return { years: found.at, earliest: found.earliest, latest: found.latest };
}
