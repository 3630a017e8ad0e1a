import { EARLY_PAPER, INTEGRAL, PEEL_APART, PLATES } from "./befalls.ts";
import type { Finding } from "./finding.ts";
import type { Grade } from "./grade.ts";
import { findTerm } from "./terms.ts";

/** The intervals are judgements of ours; what they follow is named with each. */
const OWN = "own, no published interval was read";

/** One reason to look again, and after how long at the latest. Everything that is named must hold. */
export type IntervalRule = {
  readonly months: number;
  readonly grades?: readonly Grade[];
  readonly processes?: readonly string[];
  /** of the finding */
  readonly terms?: readonly string[];
  readonly isActive?: true;
  /** a finding that is known to have stopped does not count */
  readonly mayGoOn?: true;
  readonly leastSeverity?: number;
  /** one clause; {finding} is put in */
  readonly because: string;
  readonly source: string;
};

export const INTERVAL_RULES: readonly IntervalRule[] = [
  { months: 1, grades: ["unacceptable"], because: "its grade is unacceptable", source: OWN },
  { months: 6, grades: ["poor"], because: "its grade is poor", source: OWN },
  { months: 24, grades: ["fair"], because: "its grade is fair", source: OWN },
  { months: 60, grades: ["good"], because: "every print is looked at every five years", source: OWN },
  {
    months: 1,
    terms: ["reagent-leak", "mould", "insect", "rodent", "nitrate-decay", "vinegar", "binder-soft", "flaking", "delam-instant"],
    mayGoOn: true,
    leastSeverity: 1,
    because: "{finding} spreads, speeds up or loses picture",
    source: "own; the urgency follows the terms' activity as their sources tell it",
  },
  {
    months: 3,
    terms: ["glass-corrosion", "rust", "cracking-integral", "blister", "tear"],
    mayGoOn: true,
    leastSeverity: 2,
    because: "{finding} may go on",
    source: "own; the urgency follows the terms' activity as their sources tell it",
  },
  { months: 3, isActive: true, leastSeverity: 3, because: "{finding} is active and marked or worse", source: OWN },
  { months: 6, isActive: true, leastSeverity: 2, because: "{finding} is active", source: OWN },
  { months: 12, isActive: true, leastSeverity: 1, because: "{finding} is active", source: OWN },
  { months: 12, mayGoOn: true, leastSeverity: 3, because: "nobody knows whether {finding} goes on", source: OWN },
  {
    months: 24,
    processes: [...INTEGRAL, ...PEEL_APART],
    because: "instant prints change in the dark too",
    source: "own; yellow stain in the dark after L. C. Pigniolo, Conservation DistList, 1 October 1993",
  },
  {
    months: 36,
    processes: PLATES,
    because: "cover glass and plates corrode unseen in their cases",
    source: "own; weeping glass after P. Messier, Conservation DistList 9:11, July 1995",
  },
  {
    months: 36,
    processes: [...EARLY_PAPER, "chromogenic"],
    because: "its process fades and yellows sooner than others",
    source: "own; fading of albumen after J. M. Reilly, Picturescope 30(1), 1982",
  },
];

export type NextSurvey = { readonly dueOn: string; readonly months: number; readonly because: string; readonly source: string };

export type Surveyed = {
  readonly surveyedOn: string;
  readonly grade: Grade | null;
  readonly processId: string;
  readonly findings: readonly Pick<Finding, "term" | "severity" | "activity">[];
};

/** The day by which a print should be looked at again: the shortest interval that any rule asks for decides. */
export function nextSurvey(surveyed: Surveyed, rules: readonly IntervalRule[] = INTERVAL_RULES): NextSurvey {
  const asked = rules.flatMap((rule) => {
    const because = reasonOf(rule, surveyed);
    return because === null ? [] : [{ months: rule.months, because, source: rule.source }];
  });
  // a survey without a grade says little: as long as for a fair print, unless something found asks for less
  const longest = { months: 24, because: "the last survey gave no grade", source: OWN };
  const soonest = asked.reduce((least, each) => (each.months < least.months ? each : least), asked[0] ?? longest);
  const decided = surveyed.grade === null && longest.months < soonest.months ? longest : soonest;
  return { ...decided, dueOn: monthsAfter(surveyed.surveyedOn, decided.months) };
}

/** The clause of a rule that holds, else null. */
function reasonOf(rule: IntervalRule, { grade, processId, findings }: Surveyed): string | null {
  if (rule.grades && (grade === null || !rule.grades.includes(grade))) return null;
  if (rule.processes && !rule.processes.includes(processId)) return null;
  const asksForFinding = rule.terms !== undefined || rule.isActive === true || rule.mayGoOn === true || rule.leastSeverity !== undefined;
  const words = rule.because;
  if (!asksForFinding) return words;
  const met = findings
    .filter(
      (finding) =>
        isDamage(finding.term) &&
        finding.severity >= Math.max(1, rule.leastSeverity ?? 1) &&
        (!rule.terms || rule.terms.includes(finding.term)) &&
        (!rule.isActive || finding.activity === "active") &&
        (!rule.mayGoOn || finding.activity !== "stable"),
    )
    .toSorted((a, b) => b.severity - a.severity)[0];
  return met ? words.replace("{finding}", (findTerm(met.term)?.name ?? met.term).toLowerCase()) : null;
}

function isDamage(termId: string): boolean {
  const group = findTerm(termId)?.group;
  return group !== "making" && group !== "feature";
}

/** The same day so many months later; the last of the month where that month is shorter. */
export function monthsAfter(day: string, months: number): string {
  const [year, month, date] = day.split("-").map(Number) as [number, number, number];
  const first = new Date(Date.UTC(year, month - 1 + months, 1));
  const daysInMonth = new Date(Date.UTC(first.getUTCFullYear(), first.getUTCMonth() + 1, 0)).getUTCDate();
  first.setUTCDate(Math.min(date, daysInMonth));
  return first.toISOString().slice(0, 10);
}
