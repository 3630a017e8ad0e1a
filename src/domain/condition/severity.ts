import type { Term } from "./term.ts";

/** How bad a finding is. The words and what they mean are our own; 0 says that it was looked for. */
export const SEVERITIES = [0, 1, 2, 3, 4] as const;
export type Severity = (typeof SEVERITIES)[number];

export const SEVERITY_WORDS: Readonly<Record<Severity, string>> = { 0: "none", 1: "slight", 2: "moderate", 3: "marked", 4: "severe" };

export const SEVERITY_MEANINGS: Readonly<Record<Severity, string>> = {
  0: "Looked for, not found",
  1: "Seen only when looked for, or outside the image; the picture reads as before",
  2: "Seen at once at reading distance; the picture still reads fully",
  3: "Disturbs the picture, or the part is weak or lifting",
  4: "Picture or support is being lost, or other objects or people are at risk",
};

/** What a level looks like for one term. */
export const levelOf = (term: Term, severity: Severity): string =>
  severity === 0 ? SEVERITY_MEANINGS[0] : (term.levels[severity - 1] ?? SEVERITY_MEANINGS[severity]);
