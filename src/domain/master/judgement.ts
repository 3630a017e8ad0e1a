import { z } from "zod";

const measured = z.object({
  measure: z.string(),
  /** null: not shown by this capture */
  value: z.number().nullable(),
  /** the true value is at least (lower) or at most (upper) the one shown; null: it is the one shown */
  bound: z.enum(["lower", "upper"]).nullable(),
  spread: z.number().nullable(),
  /** 0 to 1; null where nothing is shown that could count */
  desirability: z.number().nullable(),
  /** why nothing counts here, in words for the keeper; null where it does */
  notShown: z.string().nullable(),
});

const shortfall = z.object({
  measure: z.string(),
  sense: z.enum(["at-least", "at-most"]),
  required: z.number(),
  /** null: not shown, and `notShown` says why; with `notShown`: left open, since only this bound is known and proves neither */
  value: z.number().nullable(),
  /** the true value is at least (lower) or at most (upper) this; choices made before bounds were kept have none */
  bound: z.enum(["lower", "upper"]).nullable().default(null),
  notShown: z.string().nullable(),
});

const verdict = z.object({
  captureId: z.number().int(),
  fileName: z.string(),
  /** one entry for each limit that a print can prove, in the order of the aim */
  measures: z.array(measured),
  /** requirements it does not meet; empty: it may be master */
  shortfalls: z.array(shortfall),
  /** another capture that is at least as good wherever this one shows anything, and better somewhere */
  beatenBy: z.number().int().nullable(),
  /** weighted geometric mean of the desirabilities shown; null when nothing is shown */
  overall: z.number().nullable(),
});

/** What the rule says of the captures of one side of a print for one purpose. */
const rulingSchema = z.object({
  /** the master; null when no capture meets the requirements */
  masterId: z.number().int().nullable(),
  /** the capture that comes nearest to the master */
  runnerUpId: z.number().int().nullable(),
  /** the master, or else the capture that is nearest to meeting the requirements; null without captures */
  bestId: z.number().int().nullable(),
  /** by capture id */
  verdicts: z.array(verdict),
  /** measures of the aim that no capture of a print can prove: they need a target check of the set-up */
  needTarget: z.array(z.string()),
});

/** A change of one number, with everything else as it is, that makes the rule choose otherwise. */
const change = z.object({ measure: z.string(), from: z.number(), to: z.number() });
const turn = z.object({
  /** the smallest change of one reading, as a share of the range in which the aim counts the measure; null: none would do */
  reading: change.extend({ captureId: z.number().int() }).nullable(),
  /** the smallest change of one weight, as a ratio; null: none would do */
  weight: change.nullable(),
});

/** How the captures compare and how far that is to be trusted: what choices keep as their explanation. */
export const judgementSchema = rulingSchema.extend({
  /** share of chances in which the doubts of the readings leave the answer as it is, 0 to 1; null: nothing was judged */
  sureness: z.number().min(0).max(1).nullable().default(null),
  /** true when that is too little: a person should look */
  closeCall: z.boolean(),
  /** the measure that speaks loudest for the master against the runner-up */
  decisive: z.string().nullable().default(null),
  /** true when bounds leave open which of the two is better in that measure */
  decidedByBound: z.boolean().default(false),
  /** null in choices made before it was kept, and where there is no master */
  turn: turn.nullable().default(null),
});

export type Measured = z.infer<typeof measured>;
/** A requirement that a capture does not meet. */
export type Shortfall = z.infer<typeof shortfall>;
export type Verdict = z.infer<typeof verdict>;
export type Ruling = z.infer<typeof rulingSchema>;
export type Turn = z.infer<typeof turn>;
export type Judgement = z.infer<typeof judgementSchema>;
