import { z } from "zod";
import { SIDES } from "../capture/capture.ts";
import { chosen, line, passage, typed } from "../print/typed-text.ts";
import { EXTENTS, type Extent } from "./extent.ts";
import { ACTIVITIES, CHANGES } from "./finding.ts";
import { GRADES } from "./grade.ts";
import { MOST_REGIONS, readRegions } from "./marked-region.ts";
import { termNamed } from "./terms.ts";

const LEVEL = "Choose a level from 0 to 4.";
const isLevel = (text: string): text is "0" | "1" | "2" | "3" | "4" => /^[0-4]$/.test(text);
const activity = z.enum(ACTIVITIES, "Choose whether it is active.").default("not-known");
const extent = chosen((text): text is Extent => EXTENTS.some((known) => known === text), "Choose how much it covers from the list.");
const regions = typed(MOST_REGIONS * 400).transform((text, issues) => {
  const read = readRegions(text);
  if ("regions" in read) return read.regions;
  issues.addIssue({ code: "custom", message: read.problem });
  return z.NEVER;
});
const side = z.enum(SIDES, "Choose front or back.").default("front");

/** By id, as from a list, or by name, as typed. */
const term = typed(200).transform((text, issues) => {
  if (text === "") return null;
  const named = termNamed(text);
  if (named) return named.id;
  issues.addIssue({ code: "custom", message: "Choose a term from the list." });
  return z.NEVER;
});

/** Something not found before. A row in which nothing was chosen or written is null. */
const found = z
  .object({
    term,
    severity: chosen(isLevel, LEVEL),
    activity,
    side,
    extent,
    regions,
    note: passage(2000),
  })
  .transform((row, issues) => {
    const { term, severity } = row;
    if (term === null && severity === null && row.note === null && row.extent === null && row.regions.length === 0) return null;
    if (term === null) issues.addIssue({ code: "custom", path: ["term"], message: "Choose what it is, or empty this finding." });
    if (severity === null) issues.addIssue({ code: "custom", path: ["severity"], message: LEVEL });
    return term === null || severity === null ? z.NEVER : { ...row, term, severity: Number(severity) };
  });

/** An earlier finding looked at again; not-looked carries it on as it was. */
const rejudged = z.object({
  findingId: typed(15)
    .refine((text) => /^[1-9]\d*$/.test(text), "Open the form again: this finding is not known.")
    .transform(Number),
  change: z.enum([...CHANGES, "not-looked"], "Say what became of it, or that you did not look at it."),
  severity: typed(1).refine(isLevel, LEVEL).transform(Number),
  activity,
  /** not sent: as before */
  extent: z.union([z.undefined(), extent]),
  regions: z.union([z.undefined(), regions]),
  note: passage(2000),
});

/** One look at a print, as a form or a program gives it. */
export const surveyInput = z.object({
  surveyedOn: z.iso.date("Write the day as year-month-day, such as 2026-11-25."),
  /** null: not said */
  lookedAtBy: line(120),
  /** null: as proposed from the findings */
  grade: chosen((text): text is (typeof GRADES)[number] => GRADES.some((grade) => grade === text), "Choose a grade from the list."),
  note: passage(4000),
  rejudged: z.array(rejudged).max(200).default([]),
  found: z
    .array(found)
    .max(60)
    .default([])
    .transform((rows) => rows.filter((row) => row !== null)),
});
export type SurveyInput = z.output<typeof surveyInput>;
