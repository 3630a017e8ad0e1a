import type { MeasureName } from "#domain/measure/catalogue.ts";

/** Measures that no ladder reads, and why. */
export const WITHOUT_LADDER: Partial<Readonly<Record<MeasureName, string>>> = {
  lossless:
    "a fact of the file, yes or no, read from its kind; held to files of each kind in `test/domain/measure/file/file-facts.test.ts`",
  processingSignCount:
    "a count of signs, each there or not there; each is held to a file that has it and to one that does not in `test/domain/measure/file/processing-signs.test.ts`",
};

/** Read by ladders that are climbed in a way of their own: of detail (ladders/detail.ts) and of edits (ladders/copies.ts). */
export const OF_OTHER_LADDERS: readonly MeasureName[] = ["detailCyPerMm", "savedAgainCount"];

export const withoutLadder = (): string =>
  [
    "## Measures without a ladder",
    Object.entries(WITHOUT_LADDER)
      .map(([measure, why]) => `* \`${measure}\`: ${why}.`)
      .join("\n"),
  ].join("\n\n");
