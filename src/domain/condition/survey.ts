import type { Grade } from "./grade.ts";

/** One look at a print on a day by a person. */
export type Survey = {
  readonly id: number;
  readonly surveyedOn: string;
  readonly grade: Grade | null;
  /** whether a person gave the grade, or it follows from the findings */
  readonly gradeBasis: "proposed" | "said" | null;
  readonly note: string | null;
  /** the person, as typed; null: not said */
  readonly lookedAtBy: string | null;
};

/** Said in place of who looked, where that was left open. */
export const NOBODY_NAMED = "nobody named";
