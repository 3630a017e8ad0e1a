import { surveyInput } from "#domain/condition/survey-input.ts";
import type { Outcome } from "#domain/outcome.ts";
import { findPrintByNumber } from "#drizzle/queries/prints.ts";
import { listRounds } from "#drizzle/queries/rounds.ts";
import { lastSurvey } from "#drizzle/queries/surveys.ts";
import { DEMO_ROUND, DEMO_SURVEYS, type DemoSurvey } from "../../../demo-collection/surveys.ts";
import type { Context } from "../context.ts";
import { lookInRound } from "./look-in-round.ts";
import { recordSurvey, standingFindings } from "./record-survey.ts";
import { startRound } from "./start-round.ts";

type Expected = <T>(what: string, outcome: Outcome<T>) => T;

/** What was found on the demo's prints over the years, and a round through a drawer that is not through yet. */
export function fillDemoSurveys(context: Context, placeIds: ReadonlyMap<string, number>, expected: Expected): void {
  for (const survey of DEMO_SURVEYS) {
    const print = findPrintByNumber(context.db, survey.objectNumber);
    if (!print || print.binnedAt !== null) continue;
    const last = lastSurvey(context.db, print.id);
    if (last && last.surveyedOn >= survey.surveyedOn) continue;
    expected(survey.objectNumber, recordSurvey(context, { printId: print.id, input: inputOf(context, print.id, survey) }));
  }
  const placeId = placeIds.get(DEMO_ROUND.place);
  if (placeId === undefined) throw new Error(`the demo has no place ${DEMO_ROUND.place}`);
  if (listRounds(context.db).some((round) => round.placeId === placeId)) return;
  const { roundId } = expected("the round", startRound(context, { placeId }));
  for (const objectNumber of DEMO_ROUND.looked) {
    const print = findPrintByNumber(context.db, objectNumber);
    if (print)
      expected(objectNumber, lookInRound(context, { roundId, printId: print.id }, { same: { lookedAtBy: DEMO_ROUND.lookedAtBy } }));
  }
}

/** As the form would send it: what stands is judged again where the survey speaks of it, and carried on where it does not. */
function inputOf(context: Context, printId: number, { surveyedOn, lookedAtBy, note, findings }: DemoSurvey) {
  const standing = standingFindings(context.db, printId);
  const isSame = (a: { term: string; side?: string }, b: { term: string; side: string }) =>
    a.term === b.term && (a.side ?? "front") === b.side;
  const rejudged = standing.map((before) => {
    const now = findings.find((finding) => isSame(finding, before));
    const { severity, activity } = now ?? { severity: String(before.severity), activity: before.activity };
    const kept = { findingId: String(before.id), change: now?.change ?? "not-looked", severity, activity, note: now?.note ?? "" };
    return { ...kept, extent: now?.extent, regions: now?.regions };
  });
  const found = findings.filter((finding) => !standing.some((before) => isSame(finding, before)));
  return surveyInput.parse({
    surveyedOn,
    lookedAtBy,
    grade: "",
    note: note ?? "",
    rejudged,
    found: found.map((row) => ({ extent: "", regions: "", note: "", ...row })),
  });
}
