import { z } from "zod";
import { METHODS } from "../../capture/method.ts";
import { beforeInWords } from "./before-in-words.ts";
import type { Change } from "./change-between.ts";
import { CHANGE_NAMES, CHANGES } from "./change-names.ts";
import { QUALIFICATION_LABELS, type Qualification, TRUENESS } from "./qualification.ts";
import { STRUCTURE_KINDS } from "./structures.ts";
import { COVERAGE, VERDICT_WORDS, VERDICTS } from "./verdict.ts";

const mm = z.number();
const capture = z.strictObject({
  file: z.string(),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  method: z.enum(METHODS).nullable(),
  capturedAt: z.string().nullable().meta({ description: "as the file says; no zone where it gives none" }),
});
const verdict = z.enum(VERDICTS).meta({
  description: "changed: beyond the expanded uncertainty; within: not; indication: nobody knows how one of the captures was taken",
});
const inWords = z.string();
const name = z.enum(CHANGE_NAMES as [(typeof CHANGE_NAMES)[number], ...(typeof CHANGE_NAMES)[number][]]);
const part = z.enum(["border", "picture"]);

const present = z.strictObject({
  name,
  part,
  value: z.number().meta({ description: "newer less older" }),
  unit: z.string(),
  expandedUncertainty: z.number().nonnegative(),
  standardUncertainty: z
    .strictObject({
      noise: z.number().nonnegative(),
      registration: z.number().nonnegative(),
      evenness: z.number().nonnegative(),
      method: z.number().nonnegative(),
    })
    .meta({ description: "its independent parts" }),
  verdict,
  inWords,
});
const absent = z.strictObject({ name, part, absent: z.string().meta({ description: "the reason" }) });

const area = z.number().nonnegative();
const before = z
  .discriminatedUnion("state", [
    z.strictObject({ state: z.literal("new"), inWords }),
    z.strictObject({ state: z.literal("grown"), beforeMm2: area, grownMm2: area, inWords }),
    z.strictObject({ state: z.literal("stronger"), beforeMm2: area, inWords }),
    z.strictObject({ state: z.literal("weaker"), inWords }),
    z.strictObject({ state: z.literal("not-told"), reason: z.string(), inWords }),
  ])
  .meta({ description: "what the older capture shows there; new: nothing of that kind; grown: it touches such a place" });

const structure = z.strictObject({
  kind: z.enum(STRUCTURE_KINDS).meta({ description: "line: such as a crack; spot: small; patch: such as a stain" }),
  part,
  areaMm2: z.number().positive(),
  lengthMm: z.number().positive().meta({ description: "the longest way through it" }),
  boxMm: z.strictObject({ left: mm, top: mm, width: mm, height: mm }),
  deltaE2000: z.number().nonnegative(),
  deltaL: z.number(),
  deltaB: z.number(),
  before,
  verdict: z.enum(["changed", "indication"]),
  doubt: z.string().nullable().meta({ description: "what else than the print may have changed" }),
});

/** How a print changed between two captures: the answer of the command line for programs. */
export const changeReportSchema = z
  .strictObject({
    older: capture,
    newer: capture,
    sheetMm: z
      .strictObject({ width: mm, height: mm })
      .meta({ description: "as the older capture shows it; boxes count from its top left" }),
    registration: z.strictObject({ medianMm: mm, p95Mm: mm }).meta({ description: "shifts still found between the two" }),
    coverageFactor: z.literal(COVERAGE),
    assumed: z
      .array(
        z.strictObject({
          capture: z.enum(["older", "newer"]),
          takenBy: z.string(),
          lightness: z.number(),
          colour: z.number(),
          lightnessBesideBorder: z.number(),
          source: z.string(),
        }),
      )
      .meta({ description: "half-widths of what a capture may be off by, L* and length in the plane of a* and b*" }),
    numbers: z.array(z.union([present, absent])),
    structures: z
      .strictObject({ verdict, inWords, places: z.array(structure), untold: z.int().nonnegative() })
      .meta({ description: "new or altered places, global tone taken out, largest first; untold: how many more there were" }),
  })
  .meta({ title: "Change report", description: "How one side of a print changed between an older and a newer capture." });

export type ChangeReport = z.infer<typeof changeReportSchema>;

type Side = z.infer<typeof capture> & { readonly qualification: Qualification };

export function changeReport(older: Side, newer: Side, change: Change): ChangeReport {
  const facts = ({ qualification: _, ...rest }: Side) => rest;
  const assumedOf = (which: "older" | "newer", { qualification }: Side) => {
    const { lightness, colour, besideBorder, source } = TRUENESS[qualification];
    return { capture: which, takenBy: QUALIFICATION_LABELS[qualification], lightness, colour, lightnessBesideBorder: besideBorder, source };
  };
  return {
    older: facts(older),
    newer: facts(newer),
    sheetMm: { width: change.sheetMm.widthMm, height: change.sheetMm.heightMm },
    registration: { medianMm: change.residualMm, p95Mm: change.residual95Mm },
    coverageFactor: COVERAGE,
    assumed: [assumedOf("older", older), assumedOf("newer", newer)],
    numbers: change.numbers.map((number) => {
      const of = { name: number.name, part: CHANGES[number.name].part };
      if ("absent" in number) return { ...of, absent: number.absent };
      const { value, unit, expandedUncertainty, parts, verdict: judged } = number;
      return {
        ...of,
        value,
        unit,
        expandedUncertainty,
        standardUncertainty: { ...parts },
        verdict: judged,
        inWords: VERDICT_WORDS[judged],
      };
    }),
    structures: {
      verdict: change.structuresVerdict,
      inWords: VERDICT_WORDS[change.structuresVerdict],
      places: change.structures.map(({ box, ...rest }) => ({
        ...rest,
        before: { ...rest.before, inWords: beforeInWords(rest) },
        boxMm: { ...box },
      })),
      untold: change.untoldStructures,
    },
  };
}
