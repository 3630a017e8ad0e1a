import type { Method } from "../capture/method.ts";
import type { FormatGroup } from "../print/print-format.ts";
import type { ProcessFamily } from "../print/process.ts";
import type { Activity } from "./finding.ts";
import type { IntendedAction } from "./intended-action.ts";

/** Gravest first. The words are those of GHS labels and ISO 3864 safety signs (from memory); their use for objects is our own. */
export const CAUTION_LEVELS = ["danger", "warning", "caution", "notice"] as const;
export type CautionLevel = (typeof CAUTION_LEVELS)[number];

/** What to mind when handling, with its cause and source, and who knows better. */
export type Caution = {
  readonly id: string;
  readonly level: CautionLevel;
  readonly title: string;
  /** what to do, in plain words */
  readonly text: string;
  /** why it is shown for this print */
  readonly cause: string;
  readonly source: string;
  /** the line that defers to rules, data sheets and trained people */
  readonly defer: string;
  /** what to write into which field of the record to end it; left out where nothing written does */
  readonly toEnd?: { readonly field: "processedOn"; readonly words: string };
  /** said only because nobody recorded otherwise: the picture is old */
  readonly isDoubtful: boolean;
};

/** What a caution can keep a print from. */
export type Doing = Method | IntendedAction;

/** When a caution holds: every condition that is given must be met. */
export type CautionRule = Omit<Caution, "toEnd" | "isDoubtful"> & {
  readonly families?: readonly ProcessFamily[];
  readonly processIds?: readonly string[];
  readonly formatGroups?: readonly FormatGroup[];
  /** holds up to so many days after processing */
  readonly upToDays?: number;
  /** whether it also holds when what is recorded of processing does not rule it out: nothing, or a date too wide */
  readonly unlessRuledOut?: boolean;
  /** the title where the picture is old and only the record of processing is missing */
  readonly titleWhenOld?: string;
  /** condition terms, one of which was found with severity 1 or more */
  readonly terms?: readonly string[];
  /** the level where the last survey judged such a finding active; left out: the same */
  readonly levelWhenActive?: CautionLevel;
  /** of what was found, as judged last; where nobody judged it, not known */
  readonly activity?: Activity;
  /** ids of enclosure.ts: what the prints of its place lie in */
  readonly enclosureMaterials?: readonly string[];
  /** methods for which it is said; left out: always said */
  readonly methods?: readonly Method[];
  /** actions for which alone it is said; left out: always said */
  readonly actions?: readonly IntendedAction[];
  /** what must not be done while it holds */
  readonly forbids: readonly Doing[];
  /** what may be done with care, as the caution tells */
  readonly minds?: readonly IntendedAction[];
};

/** A finding as far as cautions need it. */
export type FoundTerm = { readonly term: string; readonly severity: number; readonly activity?: Activity };

export const DEFER =
  "Local safety rules, the material's safety data sheet and a qualified or licensed photograph conservator take precedence over this note.";
export const DEFER_HEALTH =
  "Local safety rules, the safety data sheet and a medical or poison-information service take precedence over this note.";
export const DEFER_FIRE =
  "Fire-safety law, the local fire authority and a qualified or licensed conservator take precedence over this note.";

export const ROLLERS: readonly Doing[] = ["sheet-fed-scanner"];
/** Ways of capturing in which something touches the print or lies on it. */
export const CONTACT: readonly Doing[] = ["sheet-fed-scanner", "flatbed-scanner", "glass-over-it"];
/** What presses on a print, shakes it, or lets it hang. */
export const TRAVEL_AND_SHOW: readonly Doing[] = ["post", "display"];
