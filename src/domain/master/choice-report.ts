import { z } from "zod";
import type { PublishedAim } from "../aim/published.ts";
import type { Candidate } from "./choose.ts";
import { choose } from "./choose.ts";
import { explain } from "./explain.ts";
import type { Judgement, Verdict } from "./judgement.ts";
import { shortfallInWords } from "./requirements.ts";

const ranked = z.strictObject({
  file: z.string(),
  overall: z.number().min(0).max(1).nullable().meta({ description: "desirability over all that the file shows; null: it shows nothing" }),
  shortfalls: z.array(z.string()).meta({ description: "requirements that it does not meet; with any it cannot be master" }),
  beatenBy: z.string().nullable().meta({ description: "another file that is as good or better in everything shown" }),
});

/** The master among files for one purpose, and why: the answer of the command line for programs. */
export const choiceReportSchema = z
  .strictObject({
    purpose: z.string(),
    aim: z.string(),
    edition: z.string().meta({ description: "the published tables that the aim is built on" }),
    master: z.string().nullable().meta({ description: "null: no file meets the requirements" }),
    runnerUp: z.string().nullable(),
    closeCall: z.boolean().meta({ description: "master and runner-up differ by less than their readings are sure of" }),
    sentence: z.string(),
    order: z.array(ranked).meta({ description: "best first; files that cannot be master come last" }),
  })
  .meta({ title: "Choice report", description: "The best of several captures of one side of one print for one purpose." });

export type ChoiceReport = z.infer<typeof choiceReportSchema>;

/** Chooses among captures by a ready-made aim. */
export function choiceReport(candidates: readonly Candidate[], { purpose, name, edition, limits }: PublishedAim): ChoiceReport {
  const judgement = choose(candidates, limits);
  const fileOf = (captureId: number | null) => candidates.find((candidate) => candidate.captureId === captureId)?.fileName ?? null;
  return {
    purpose: purpose.key,
    aim: name,
    edition,
    master: fileOf(judgement.masterId),
    runnerUp: fileOf(judgement.runnerUpId),
    closeCall: judgement.closeCall,
    sentence: explain(judgement, limits),
    order: inOrder(judgement).map(({ fileName, overall, shortfalls, beatenBy }) => ({
      file: fileName,
      overall,
      shortfalls: shortfalls.map(shortfallInWords),
      beatenBy: fileOf(beatenBy),
    })),
  };
}

function inOrder({ verdicts, masterId }: Judgement): Verdict[] {
  const place = ({ captureId, shortfalls, beatenBy }: Verdict) =>
    captureId === masterId ? 0 : shortfalls.length > 0 ? 3 : beatenBy !== null ? 2 : 1;
  return verdicts.toSorted(
    (a, b) => place(a) - place(b) || a.shortfalls.length - b.shortfalls.length || (b.overall ?? 0) - (a.overall ?? 0),
  );
}
