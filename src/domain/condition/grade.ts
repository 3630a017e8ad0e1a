import type { Finding } from "./finding.ts";
import { SEVERITY_WORDS, type Severity } from "./severity.ts";
import { findTerm } from "./terms.ts";

/** From best to worst. The four steps and their sense: Wellcome Collection, visual and material culture inventory, condition ratings. */
export const GRADES = ["good", "fair", "poor", "unacceptable"] as const;
export type Grade = (typeof GRADES)[number];

export const GRADE_WORDS: Readonly<Record<Grade, string>> = { good: "Good", fair: "Fair", poor: "Poor", unacceptable: "Unacceptable" };

/** What each grade means and asks for, in our own words after that source. */
export const GRADE_MEANINGS: Readonly<Record<Grade, string>> = {
  good: "Sound; at most slight wear. Nothing to do.",
  fair: "Minor damage or wear, no loss to fear at present. Nothing to do at once; tidy before display.",
  poor: "Unstable or broken in part, with a risk of loss. Not for display or loan; ask a conservator.",
  unacceptable: "Severely weakened, decaying, or a danger to its neighbours. Act now.",
};

export const GRADE_SOURCE = "Wellcome Collection, visual and material culture inventory: condition ratings";

export type ProposedGrade = { readonly grade: Grade /** one clause for the keeper */; readonly because: string };

/**
 * The grade that the gravest finding asks for (own rule): an active severity 4 is unacceptable; a severity 4, or an active 2 or 3, which is
 * unstable by its own word, is poor; a severity 2 or 3, or an active 1, is fair; else good. Faults of making and features of the object never lower it.
 */
export function proposedGrade(findings: readonly Pick<Finding, "term" | "severity" | "activity">[]): ProposedGrade {
  const damages = findings.filter(({ term }) => !isNoDamage(term));
  const gravest = damages.toSorted((a, b) => GRADES.indexOf(gradeOf(b)) - GRADES.indexOf(gradeOf(a)) || b.severity - a.severity)[0];
  if (!gravest || gravest.severity === 0) return { grade: "good", because: "no damage was found" };
  const name = findTerm(gravest.term)?.name ?? gravest.term;
  const word = SEVERITY_WORDS[gravest.severity as Severity];
  return { grade: gradeOf(gravest), because: `${name} is ${word}${gravest.activity === "active" ? " and active" : ""}` };
}

function gradeOf({ severity, activity }: Pick<Finding, "severity" | "activity">): Grade {
  const isActive = activity === "active";
  if (severity === 4) return isActive ? "unacceptable" : "poor";
  if (severity >= 2) return isActive ? "poor" : "fair";
  return severity === 1 && isActive ? "fair" : "good";
}

function isNoDamage(termId: string): boolean {
  const group = findTerm(termId)?.group;
  return group === "making" || group === "feature";
}
