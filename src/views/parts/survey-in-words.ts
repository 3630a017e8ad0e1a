import { findingInWords, severityInWords, termInWords } from "#domain/condition/finding-in-words.ts";
import { GRADE_WORDS, GRADES } from "#domain/condition/grade.ts";
import { dateInWords } from "#domain/print/date.ts";

type Told = Readonly<Record<string, unknown>>;

/** A line of the history that tells of a survey. */
export function surveyInWords(detail: Told): string {
  const day = typeof detail.surveyedOn === "string" ? ` on ${dateInWords(detail.surveyedOn)}` : "";
  const by = typeof detail.lookedAtBy === "string" ? ` by ${detail.lookedAtBy}` : "";
  const findings = Array.isArray(detail.findings) ? detail.findings.filter(isTold) : [];
  const sentences = [`Condition looked at${day}${by}: ${gradeInWords(detail)}`, ...findings.map(judgementInWords)];
  return `${sentences.join(". ")}.`;
}

/** "Photograph IMG_1.jpg of Crack, back" */
export function photographInWords({ originalName, term, side }: Told): string {
  const of = typeof term === "string" ? ` of ${termInWords({ term, side: side === "back" ? "back" : "front" })}` : "";
  return `Photograph ${typeof originalName === "string" ? originalName : ""}${of}`;
}

function gradeInWords({ grade, gradeBasis, proposed }: Told): string {
  const words = (value: unknown) => GRADE_WORDS[GRADES.find((each) => each === value) ?? "good"].toLowerCase();
  if (!GRADES.some((each) => each === grade)) return "no grade";
  return gradeBasis === "said" && proposed !== grade ? `${words(grade)}, where ${words(proposed)} was proposed` : words(grade);
}

type ToldFinding = { term: string; side: "front" | "back"; severity: number; change: string | null; from: number | null };

const isTold = (value: unknown): value is ToldFinding => typeof value === "object" && value !== null && "term" in value;

function judgementInWords(finding: ToldFinding): string {
  const { change, from, severity } = finding;
  if (from === null) return severity === 0 ? `${termInWords(finding)}: looked for, not found` : `New: ${findingInWords(finding)}`;
  if (change === null) return `${termInWords(finding)}: not looked at, still ${severityInWords(severity)}`;
  if (change === "gone") return `${termInWords(finding)}: gone`;
  const levels = from === severity ? severityInWords(severity) : `from ${severityInWords(from)} to ${severityInWords(severity)}`;
  return `${termInWords(finding)}: ${change}, ${levels}`;
}
