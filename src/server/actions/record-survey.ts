import type { DatedFinding, Finding } from "#domain/condition/finding.ts";
import { proposedGrade } from "#domain/condition/grade.ts";
import { contradiction, type Judgement, judgements } from "#domain/condition/judgements.ts";
import { outsideSheet } from "#domain/condition/marked-region.ts";
import type { SurveyInput } from "#domain/condition/survey-input.ts";
import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import { type PrintSize, sheetSize } from "#domain/print/dimensions.ts";
import type { Queryable } from "#drizzle/client.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { insertFinding, latestFindings } from "#drizzle/queries/findings.ts";
import { findPrint } from "#drizzle/queries/prints.ts";
import { insertSurvey, lastSurvey } from "#drizzle/queries/surveys.ts";
import type { Context } from "../context.ts";

type Rejudged = SurveyInput["rejudged"][number];

/**
 * Records one look at a print. Every earlier finding that still stands is judged again or carried on, so that what the last survey
 * tells is always the whole of what is known.
 */
export function recordSurvey(context: Context, { printId, input }: { printId: number; input: SurveyInput }): Outcome<{ surveyId: number }> {
  return context.db.transaction((tx) => {
    const print = findPrint(tx, printId);
    if (!print) return refused({ about: null, happened: "This print does not exist.", remedy: "Choose another from the list." });
    if (print.binnedAt !== null)
      return refused({ about: null, happened: "This print is in the bin.", remedy: "Restore it from the bin, then look at it." });
    const standing = standingFindings(tx, printId);
    const refusals = [
      ...refusalsOfDay(tx, printId, input.surveyedOn, context.now()),
      ...refusalsOfRejudged(input.rejudged, standing),
      ...refusalsOfRegions(input, sheetSize(print)),
    ];
    if (refusals.length > 0) return refused(...refusals);
    const judged = judgements(input, standing);
    const proposed = proposedGrade(judged);
    const grade = input.grade ?? proposed.grade;
    if ((grade === "poor" || grade === "unacceptable") && !judged.some(({ severity }) => severity > 0)) return refused(NAMES_NO_DAMAGE);
    const gradeBasis = input.grade === null ? "proposed" : "said";
    const { surveyedOn, lookedAtBy, note } = input;
    const at = context.now();
    const surveyId = insertSurvey(tx, { printId, surveyedOn, lookedAtBy, grade, gradeBasis, note, userId: context.userId, finishedAt: at });
    for (const finding of judged) insertFinding(tx, surveyId, finding);
    const detail = {
      surveyedOn,
      lookedAtBy,
      grade,
      gradeBasis,
      proposed: proposed.grade,
      findings: judged.map((finding) => told(finding, standing)),
    };
    recordEvent(tx, { at, userId: context.userId, verb: "recorded", subject: "survey", subjectId: surveyId, printId, detail });
    return done({ surveyId });
  });
}

/** What was found by the last survey and had not gone. */
export function standingFindings(db: Queryable, printId: number): DatedFinding[] {
  return (latestFindings(db, [printId]).get(printId) ?? []).filter(({ severity }) => severity > 0);
}

function refusalsOfDay(db: Queryable, printId: number, surveyedOn: string, now: string): Refusal[] {
  // Somewhere on earth it is already up to 14 hours later than in Greenwich.
  const latestDay = new Date(Date.parse(now) + 14 * 3_600_000).toISOString().slice(0, 10);
  if (surveyedOn > latestDay)
    return [{ about: "surveyedOn", happened: "This day has not come yet.", remedy: "Write the day on which the print was looked at." }];
  const last = lastSurvey(db, printId);
  if (!last || surveyedOn >= last.surveyedOn) return [];
  return [
    {
      about: "surveyedOn",
      happened: `This print was looked at on ${last.surveyedOn}, after that day.`,
      remedy: "Findings are judged forward in time: write that day or a later one, and what was seen before into the note.",
    },
  ];
}

function refusalsOfRejudged(rejudged: readonly Rejudged[], standing: readonly DatedFinding[]): Refusal[] {
  const ids = new Set(rejudged.map(({ findingId }) => findingId));
  const isWhole = ids.size === rejudged.length && ids.size === standing.length && standing.every(({ id }) => ids.has(id));
  if (!isWhole) return [LOOKED_AT_MEANWHILE];
  return rejudged.flatMap((row, index) => {
    const before = standing.find(({ id }) => id === row.findingId)?.severity ?? 0;
    const happened = contradiction(row, before);
    return happened
      ? [{ about: `rejudged.${index}.severity`, happened, remedy: "Choose another level, or say otherwise what became of it." }]
      : [];
  });
}

function refusalsOfRegions({ rejudged, found }: SurveyInput, sheet: PrintSize | null): Refusal[] {
  const of = (list: string, rows: readonly { readonly regions?: Finding["regions"] | undefined }[]) =>
    rows.flatMap(({ regions }, index) => {
      const happened = (regions ?? []).map((region) => outsideSheet(region, sheet)).find((problem) => problem !== null);
      return happened ? [{ about: `${list}.${index}.regions`, happened, remedy: "Mark it again, or correct the size in the record." }] : [];
    });
  return [...of("rejudged", rejudged), ...of("found", found)];
}

/** A judgement as the history keeps it. */
function told({ term, side, severity, change, earlierFindingId }: Judgement, standing: readonly DatedFinding[]) {
  const from = standing.find(({ id }) => id === earlierFindingId)?.severity ?? null;
  return { term, side, severity, change, from };
}

const LOOKED_AT_MEANWHILE: Refusal = {
  about: null,
  happened: "The earlier findings are not those that this form was opened with: the print was looked at meanwhile.",
  remedy: "They are listed anew below. Judge each of them and save again.",
};

const NAMES_NO_DAMAGE: Refusal = {
  about: "grade",
  happened: "This grade says that the print is damaged, but no finding says how.",
  remedy: "Note at least one finding, or choose a better grade.",
};
