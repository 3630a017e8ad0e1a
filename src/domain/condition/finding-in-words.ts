import type { Finding } from "./finding.ts";
import { SEVERITIES, SEVERITY_WORDS } from "./severity.ts";
import { findTerm } from "./terms.ts";

/** "Mould, back: moderate" */
export const findingInWords = ({ term, severity, side }: Pick<Finding, "term" | "severity" | "side">): string =>
  `${termInWords({ term, side })}: ${severityInWords(severity)}`;

/** "Mould, back"; the front goes without saying. */
export const termInWords = ({ term, side }: Pick<Finding, "term" | "side">): string =>
  `${findTerm(term)?.name ?? term}${side === "back" ? ", back" : ""}`;

export const severityInWords = (severity: number): string => {
  const known = SEVERITIES.find((each) => each === severity);
  return known === undefined ? String(severity) : SEVERITY_WORDS[known];
};

/** What one look said of a thing found: "worse, marked". */
export function lookInWords({ change, severity, earlierFindingId }: Pick<Finding, "change" | "severity" | "earlierFindingId">): string {
  if (change === "gone") return "gone";
  if (change) return `${change}, ${severityInWords(severity)}`;
  return earlierFindingId === null ? `found, ${severityInWords(severity)}` : `not looked at, last ${severityInWords(severity)}`;
}
