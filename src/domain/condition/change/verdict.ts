import type { Qualification } from "./qualification.ts";

export const VERDICTS = ["changed", "within", "indication"] as const;

/** Whether a difference is a change of the print. */
export type Verdict = (typeof VERDICTS)[number];

export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  changed: "changed",
  within: "within what the two captures can tell",
  indication: "indication only",
};

/** Coverage factor of the expanded uncertainty: about 95 % (JCGM 100:2008, 6.3.3). */
export const COVERAGE = 2;

/** Parts of a standard uncertainty, all in the unit of the number. */
export type UncertaintyParts = {
  /** the two captures' own noise */
  readonly noise: number;
  /** how exactly they lie on each other */
  readonly registration: number;
  /** uneven light, as parts of the sheet disagree */
  readonly evenness: number;
  /** how they were taken */
  readonly method: number;
};

/** Combined standard uncertainty of independent parts (JCGM 100:2008, 5.1.2), times k = 2. */
export const expanded = ({ noise, registration, evenness, method }: UncertaintyParts): number =>
  COVERAGE * Math.hypot(noise, registration, evenness, method);

/** A difference counts as a change only beyond the expanded uncertainty, and never where nobody knows how a capture was taken. */
export function verdictOn(difference: number, expandedUncertainty: number, methods: readonly Qualification[]): Verdict {
  if (methods.includes("unknown")) return "indication";
  return Math.abs(difference) > expandedUncertainty ? "changed" : "within";
}
