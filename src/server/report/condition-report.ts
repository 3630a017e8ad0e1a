import { SIDES } from "#domain/capture/capture.ts";
import { cautionsFor } from "#domain/condition/cautions-for.ts";
import { type ConditionNow, conditionNow } from "#domain/condition/condition-now.ts";
import type { ConditionReport, ReportChange, ReportSide } from "#domain/condition/condition-report.ts";
import { livesOf } from "#domain/condition/finding.ts";
import type { FindingPhotograph } from "#domain/condition/finding-photograph.ts";
import { stopsOf } from "#domain/condition/method-stop.ts";
import { nextSurvey } from "#domain/condition/next-survey.ts";
import type { Print } from "#domain/print/print.ts";
import { type CaptureWithOriginal, listCapturesOfPrint } from "#drizzle/queries/captures.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { photographsOfPrint } from "#drizzle/queries/finding-photographs.ts";
import { judgementsOfPrint, latestFindings } from "#drizzle/queries/findings.ts";
import { placePath } from "#drizzle/queries/places.ts";
import { lastSurvey } from "#drizzle/queries/surveys.ts";
import { type HeldAgainst, keptChange } from "../actions/hold-captures-against.ts";
import { circumstancesOfPrint } from "../circumstances-of-print.ts";
import type { Context } from "../context.ts";
import { canBeShown, sideToShow } from "../images/side-to-show.ts";

/** A report is carried to a table, not an album. */
const MOST_PHOTOGRAPHS = 40;

type Hold = (context: Context, pair: { older: CaptureWithOriginal; newer: CaptureWithOriginal }) => Promise<HeldAgainst | null>;

/**
 * Gathers what is known of a print's condition, for the page and for paper.
 * @param hold how two captures are held against each other: what is kept of it, which takes no time, or worked out now
 */
export async function conditionReport(context: Context, print: Print, hold: Hold = keptChange): Promise<ConditionReport> {
  const { db } = context;
  const at = context.now();
  const survey = lastSurvey(db, print.id);
  const now = conditionNow(livesOf(judgementsOfPrint(db, print.id)), survey);
  const findings = latestFindings(db, [print.id]).get(print.id) ?? [];
  const circumstances = circumstancesOfPrint(db, print, at.slice(0, 10), findings);
  return {
    ...now,
    collectionName: readCollection(db).name,
    print,
    placePath: print.placeId === null ? [] : placePath(db, print.placeId),
    at,
    survey,
    next: survey && nextSurvey({ ...survey, processId: print.processId, findings }),
    sides: SIDES.map((side) => sideOf(context, print, side)),
    ...photographsFor(context, print, now),
    cautions: cautionsFor(circumstances),
    keptFrom: stopsOf(circumstances),
    changes: await changesOf(context, print, hold),
  };
}

function sideOf(context: Context, print: Print, side: ReportSide["side"]): ReportSide {
  const shown = sideToShow(context, print, side);
  if (!canBeShown(shown)) return { side, absent: shown.absent };
  const { widthMm, heightMm } = shown.sheet;
  const { widthPx, heightPx } = shown.size;
  return { side, widthMm, heightMm, widthPx, heightPx, captureName: shown.capture.name };
}

/** The photographs of what stands, newest looks first where there is no room for all. */
function photographsFor(context: Context, print: Print, { standing }: ConditionNow) {
  const all = photographsOfPrint(context.db, print.id);
  const wanted = standing.flatMap(({ life }) => life.flatMap(({ id }) => all.get(id) ?? [])).sort((a, b) => b.id - a.id);
  const photographs = new Map<number, FindingPhotograph[]>();
  for (const photograph of wanted.slice(0, MOST_PHOTOGRAPHS).reverse())
    photographs.set(photograph.findingId, [...(photographs.get(photograph.findingId) ?? []), photograph]);
  return { photographs, leftOut: Math.max(0, wanted.length - MOST_PHOTOGRAPHS) };
}

/** Of each side that was captured on two days or more. */
async function changesOf(context: Context, print: Print, hold: Hold): Promise<ReportChange[]> {
  const dated = listCapturesOfPrint(context.db, print.id)
    .filter(({ original }) => original.capturedAt !== null)
    .sort((a, b) => ((a.original.capturedAt ?? "") < (b.original.capturedAt ?? "") ? -1 : 1));
  const changes: ReportChange[] = [];
  for (const side of SIDES) {
    const ofSide = dated.filter((capture) => capture.side === side);
    const [older, newer] = [ofSide[0], ofSide.at(-1)];
    if (!older || !newer || dayOf(older) === dayOf(newer)) continue;
    const held = await hold(context, { older, newer });
    changes.push({ side, from: dayOf(older), to: dayOf(newer), olderId: older.id, newerId: newer.id, held });
  }
  return changes;
}

const dayOf = ({ original }: CaptureWithOriginal) => (original.capturedAt ?? "").slice(0, 10);
