import type { Grade } from "./grade.ts";

/** One look at a print on a day. */
export type Survey = {
  readonly id: number;
  readonly surveyedOn: string;
  readonly grade: Grade | null;
  /** whether a person gave the grade, or it follows from the findings */
  readonly gradeBasis: "proposed" | "said" | null;
  readonly note: string | null;
  /** null: the program itself */
  readonly who: string | null;
};
