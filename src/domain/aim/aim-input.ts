import { z } from "zod";
import { MEASURE_NAMES } from "../measure/catalogue.ts";
import type { AimLimit } from "./aim.ts";
import { isPrintMeasure, TARGET_MEASURE_NAMES } from "./target-measures.ts";

/** Figures beyond this are slips of the hand. */
const MOST = 1_000_000;
/** A weight cannot be set higher. */
export const MOST_WEIGHT = 100;
export const MOST_PURPOSES = 30;

const figure = z
  .number("Write a number, such as 4 or 0.5.")
  .min(-MOST, `Write a number from ${-MOST}.`)
  .max(MOST, `Write a number up to ${MOST}.`);
const open = figure.nullable().default(null);

const limit = z
  .strictObject({
    sense: z.enum(["at-least", "at-most", "between"]).meta({ description: "which way is better: more, less, or the middle" }),
    lowest: open.meta({ description: "worth nothing here and below; null for at-most" }),
    best: open.meta({ description: "good enough from here on; null where the measure must only be met" }),
    highest: open.meta({ description: "worth nothing here and above; null for at-least" }),
    weight: z
      .number("Write a number, such as 2 or 0.5.")
      .min(0, "A weight is 0 or more.")
      .max(MOST_WEIGHT, `A weight is at most ${MOST_WEIGHT}.`)
      .default(0)
      .meta({ description: "how much it counts beside the others; 0: it must only be met" }),
    requiredAtLeast: open.meta({ description: "a capture that shows less cannot be master; null: not required" }),
    requiredAtMost: open.meta({ description: "a capture that shows more cannot be master; null: not required" }),
    source: z.string().max(1000, "Keep this under 1000 letters.").optional().meta({ description: "where the figures come from" }),
    sourceStatus: z
      .enum(["standard", "secondary", "memory", "own"])
      .default("own")
      .meta({ description: "read in the standard, quoted by others, remembered, or the keeper's own" }),
  })
  .superRefine((of, issues) => {
    for (const [field, message] of problemsOf(of)) issues.addIssue({ code: "custom", path: [field], message });
  });

const line = (most: number, missing: string) =>
  z
    .string(missing)
    .trim()
    .min(1, missing)
    .max(most, `Keep this under ${most} letters.`)
    .refine((text) => !/[\n\r]/.test(text), "Keep this on one line.");

/** What a purpose asks, as its form and an imported file say it. Limits stand by the name of their measure, so that each is there once. */
export const aimInput = z.strictObject({
  name: line(60, "Give the purpose a name, such as Exhibition prints."),
  note: z.string().trim().max(500, "Keep this under 500 letters.").default("").meta({ description: "what a master is for" }),
  asks: line(120, "Say in a few words what it asks, such as Fine enough for A3."),
  limits: z
    .partialRecord(z.enum([...MEASURE_NAMES, ...TARGET_MEASURE_NAMES], "This is no measure that an aim can ask for."), limit)
    .refine(
      (limits) => Object.entries(limits).some(([name, each]) => isPrintMeasure(name) && (each?.weight ?? 0) > 0),
      "Give at least one measure a weight, or there is nothing to choose by.",
    ),
});
export type AimInput = z.output<typeof aimInput>;
type LimitInput = z.output<typeof limit>;

type Figures = Pick<LimitInput, "sense" | "lowest" | "best" | "highest" | "weight" | "requiredAtLeast" | "requiredAtMost">;

/** What is wrong with the figures of one limit, each with its field. */
function problemsOf({ sense, lowest, best, highest, weight, requiredAtLeast, requiredAtMost }: Figures): (readonly [string, string])[] {
  const problems: (readonly [string, string])[] = [];
  const needsLow = sense !== "at-most";
  const needsHigh = sense !== "at-least";
  if (best === null && (weight > 0 || (requiredAtLeast === null && requiredAtMost === null)))
    problems.push(["best", "Say from where on it is good enough, or empty all fields of this measure."]);
  if (weight > 0 && best !== null) {
    if (needsLow && lowest === null) problems.push(["lowest", "Say from where down it is worth nothing."]);
    if (needsHigh && highest === null) problems.push(["highest", "Say from where up it is worth nothing."]);
  }
  if (needsLow && lowest !== null && best !== null && lowest >= best)
    problems.push(["lowest", "More is better here: this must be less than what is good enough."]);
  if (needsHigh && highest !== null && best !== null && highest <= best)
    problems.push(["highest", "Less is better here: this must be more than what is good enough."]);
  if (!needsLow && lowest !== null) problems.push(["lowest", "Less is better here: there is no lower end."]);
  if (!needsHigh && highest !== null) problems.push(["highest", "More is better here: there is no upper end."]);
  if (!needsLow && requiredAtLeast !== null)
    problems.push(["requiredAtLeast", "Less is better here: it cannot be asked to be at least something."]);
  if (!needsHigh && requiredAtMost !== null)
    problems.push(["requiredAtMost", "More is better here: it cannot be asked to be at most something."]);
  if (requiredAtLeast !== null && requiredAtMost !== null && requiredAtLeast > requiredAtMost)
    problems.push(["requiredAtMost", "Nothing can be at least that and at most this."]);
  return problems;
}

const OWN_SOURCE = "Own figure of this collection.";

/**
 * The limits that an input asks for. A figure that stands as it stood keeps its source, and where it is a ready-made one again, that one's;
 * every other is the keeper's own.
 * @param known aims whose sources may be kept, the first that fits
 */
export function limitsOf(input: Pick<AimInput, "limits">, known: readonly (readonly AimLimit[])[] = []): AimLimit[] {
  return Object.entries(input.limits).map(([measure, each]) => {
    const { source, sourceStatus, best, ...figures } = each as LimitInput;
    const made = { measure, ...figures, best: best ?? figures.requiredAtLeast ?? figures.requiredAtMost ?? 0 };
    const same = known.flat().find((limit) => isSameLimit(limit, made));
    return {
      ...made,
      provedBy: isPrintMeasure(measure) ? "print" : "target",
      source: same?.source ?? (source || OWN_SOURCE),
      sourceStatus: same?.sourceStatus ?? (source ? sourceStatus : "own"),
    };
  });
}

type Bare = Omit<AimLimit, "provedBy" | "source" | "sourceStatus">;

const FIGURES = ["measure", "sense", "lowest", "best", "highest", "weight", "requiredAtLeast", "requiredAtMost"] as const;

const isSameLimit = (one: Bare, other: Bare): boolean => FIGURES.every((figure) => one[figure] === other[figure]);

/** Whether two aims ask the same, whatever the order and the words of their sources. */
export const areSameLimits = (some: readonly Bare[], others: readonly Bare[]): boolean =>
  some.length === others.length && some.every((limit) => others.some((other) => isSameLimit(limit, other)));
