/** Where a term stands in the list; making and features are told but never judged as damage. */
export const TERM_GROUPS = ["image", "stain", "layer", "support", "living", "instant", "making", "hands", "feature"] as const;
export type TermGroup = (typeof TERM_GROUPS)[number];

/** A word of the trade for something that can be found on a print. */
export type Term = {
  readonly id: string;
  readonly name: string;
  readonly alsoCalled: readonly string[];
  readonly group: TermGroup;
  readonly definition: string;
  /** what severity 1, 2, 3 and 4 look like; our own, as no published five-step scale for photographs was found */
  readonly levels: readonly [string, string, string, string];
  /** ids of processes; where the process is not known every term is offered */
  readonly befalls: readonly string[];
  /** where the sense of the term was read */
  readonly sources: readonly string[];
};
