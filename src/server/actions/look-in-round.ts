import type { SurveyInput } from "#domain/condition/survey-input.ts";
import { done, type Outcome, refused } from "#domain/outcome.ts";
import { findRound, linesOfRound, setLooked, setPassed } from "#drizzle/queries/rounds.ts";
import type { Context } from "../context.ts";
import { recordSurvey, standingFindings } from "./record-survey.ts";

type InRound = { readonly roundId: number; readonly printId: number };

/** A look at which everything found before is as it was, and nothing is new. */
type Same = Pick<SurveyInput, "lookedAtBy">;

/** Keeps one look of a round. */
export function lookInRound(context: Context, of: InRound, look: SurveyInput | { readonly same: Same }): Outcome<{ surveyId: number }> {
  return context.db.transaction((tx) => {
    const line = linesOfRound(tx, of.roundId).find(({ printId }) => printId === of.printId);
    if (!line) return refused(NOT_IN_ROUND);
    // sent twice: the look is kept already, and nothing is lost by going on
    if (line.surveyId !== null) return done({ surveyId: line.surveyId });
    const input = "same" in look ? nothingNew(context, of.printId, look.same) : look;
    const made = recordSurvey(context, { printId: of.printId, input });
    if (made.ok) setLooked(tx, of, made.value.surveyId);
    return made;
  });
}

/** Leaves a print for later: it comes again when the others are through. */
export function passInRound(context: Context, of: InRound): Outcome<null> {
  if (!findRound(context.db, of.roundId)) return refused(NOT_IN_ROUND);
  setPassed(context.db, of, context.now());
  return done(null);
}

/** The next print of a round to be looked at, and the how many-th look it is; what was passed over comes last. Null when all are through. */
export function nextInRound(context: Context, roundId: number): { printId: number; number: number; all: number } | null {
  const lines = linesOfRound(context.db, roundId);
  const waiting = lines.filter(({ surveyId }) => surveyId === null);
  // passed over: after the others, the longest ago first
  const next = waiting.toSorted((a, b) => (a.passedAt ?? "").localeCompare(b.passedAt ?? ""))[0];
  return next ? { printId: next.printId, number: lines.filter(({ surveyId }) => surveyId !== null).length + 1, all: lines.length } : null;
}

function nothingNew(context: Context, printId: number, { lookedAtBy }: Same): SurveyInput {
  const rejudged = standingFindings(context.db, printId).map(({ id, severity, activity, note }) => {
    const same = { change: "same" as const, severity, activity, note };
    return { findingId: id, ...same, extent: undefined, regions: undefined };
  });
  return { surveyedOn: context.now().slice(0, 10), lookedAtBy, grade: null, note: null, rejudged, found: [] };
}

const NOT_IN_ROUND = { about: null, happened: "This print is not in this round any more.", remedy: "Go on with the next." } as const;
