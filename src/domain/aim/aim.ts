export const PURPOSE_KEYS = ["preservation-master", "reproduction", "screen"] as const;
export type PurposeKey = (typeof PURPOSE_KEYS)[number];

/** Came with the program; every other is the keeper's own. */
export const isReadyMade = (key: string): boolean => PURPOSE_KEYS.some((known) => known === key);

/** What a master is for. */
export type Purpose = {
  readonly id: number;
  readonly key: string;
  readonly name: string;
  readonly note: string | null;
};

/** A purpose as it is named within a sentence: a name that a keeper gave stays as they wrote it. */
export const purposeInSentence = ({ key, name }: Pick<Purpose, "key" | "name">): string => (isReadyMade(key) ? name.toLowerCase() : name);

/** How well a figure is known: read in the standard, quoted by others, remembered, or our own choice. */
export type SourceStatus = "standard" | "secondary" | "memory" | "own";

/** What a purpose asks of one measure. */
export type AimLimit = {
  /** a name of domain/measure/catalogue.ts, or of target-measures.ts where only a target proves it */
  readonly measure: string;
  readonly sense: "at-least" | "at-most" | "between";
  /** desirability is 0 here and below; null where the sense has no lower end */
  readonly lowest: number | null;
  /** desirability is 1 here */
  readonly best: number;
  /** desirability is 0 here and above; null where the sense has no upper end */
  readonly highest: number | null;
  /** share in the overall desirability; 0: shown only */
  readonly weight: number;
  /** what a capture must reach to be master at all; null where the limit only counts */
  readonly requiredAtLeast: number | null;
  readonly requiredAtMost: number | null;
  /** a print's own capture can prove it, or only a target check of the set-up */
  readonly provedBy: "print" | "target";
  readonly source: string;
  readonly sourceStatus: SourceStatus;
};

/** The limits that a purpose asks of the measures, in the version that holds now. */
export type Aim = {
  readonly id: number;
  readonly purpose: Purpose;
  readonly name: string;
  readonly version: number;
  /** the published tables it is built on, with their editions */
  readonly edition: string;
  readonly limits: readonly AimLimit[];
};
