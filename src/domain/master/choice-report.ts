import { z } from "zod";
import type { PublishedAim } from "../aim/published.ts";
import type { Candidate } from "./choose.ts";
import { choose } from "./choose.ts";
import { turnInWords } from "./doubt-in-words.ts";
import { explain } from "./explain.ts";
import type { Judgement, Verdict } from "./judgement.ts";
import { shortfallInWords } from "./requirements.ts";

const ranked = z.strictObject({
  file: z.string(),
  overall: z.number().min(0).max(1).nullable().meta({ description: "desirability over all that the file shows; null: it shows nothing" }),
  shortfalls: z.array(z.string()).meta({ description: "requirements that it does not meet; with any it cannot be master" }),
  beatenBy: z.string().nullable().meta({ description: "another file that is as good or better in everything shown" }),
});

const change = { measure: z.string(), from: z.number(), to: z.number() };
const turn = z.strictObject({
  reading: z
    .strictObject({ file: z.string(), ...change })
    .nullable()
    .meta({ description: "smallest change of one reading with which the rule would choose otherwise; null: none would do" }),
  weight: z
    .strictObject(change)
    .nullable()
    .meta({ description: "smallest change of one weight of the aim with which the rule would choose otherwise; null: none would do" }),
  sentence: z.string(),
});

/** The master among files for one purpose, and why: the answer of the command line for programs. */
export const choiceReportSchema = z
  .strictObject({
    purpose: z.string(),
    aim: z.string(),
    edition: z.string().meta({ description: "the published tables that the aim is built on" }),
    master: z.string().nullable().meta({ description: "null: no file meets the requirements" }),
    runnerUp: z.string().nullable(),
    sureness: z
      .number()
      .min(0)
      .max(1)
      .nullable()
      .meta({ description: "share of chances in which the doubts of the readings leave the answer as it is; null: nothing was judged" }),
    closeCall: z.boolean().meta({ description: "true when that is below 0.9: too close to call, a person should look" }),
    decidedBy: z.string().nullable().meta({ description: "the measure that speaks loudest for the master against the runner-up" }),
    decidedByBound: z
      .boolean()
      .meta({ description: "true when that was read only as “at least” or “at most”, and leaves open which is better in it" }),
    turn: turn.nullable().meta({ description: "what would turn the choice; null: there is no master" }),
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
    sureness: judgement.sureness,
    closeCall: judgement.closeCall,
    decidedBy: judgement.decisive,
    decidedByBound: judgement.decidedByBound,
    turn: turnOf(judgement, fileOf),
    sentence: explain(judgement, limits),
    order: inOrder(judgement).map(({ fileName, overall, shortfalls, beatenBy }) => ({
      file: fileName,
      overall,
      shortfalls: shortfalls.map(shortfallInWords),
      beatenBy: fileOf(beatenBy),
    })),
  };
}

function turnOf(judgement: Judgement, fileOf: (captureId: number) => string | null): ChoiceReport["turn"] {
  const sentence = turnInWords(judgement);
  if (judgement.turn === null || sentence === null) return null;
  const { reading, weight } = judgement.turn;
  return {
    reading: reading && { file: fileOf(reading.captureId) ?? "", measure: reading.measure, from: reading.from, to: reading.to },
    weight,
    sentence,
  };
}

function inOrder({ verdicts, masterId }: Judgement): Verdict[] {
  const place = ({ captureId, shortfalls, beatenBy }: Verdict) =>
    captureId === masterId ? 0 : shortfalls.length > 0 ? 3 : beatenBy !== null ? 2 : 1;
  return verdicts.toSorted(
    (a, b) => place(a) - place(b) || a.shortfalls.length - b.shortfalls.length || (b.overall ?? 0) - (a.overall ?? 0),
  );
}
