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

/** Who looked. That nobody is named does not say that nobody looked: older looks kept no name. */
export const byWhomInWords = ({ lookedAtBy }: Pick<Survey, "lookedAtBy">): string =>
  lookedAtBy === null ? "by whom is not said" : `by ${lookedAtBy}`;
