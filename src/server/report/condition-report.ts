import { SIDES, type Side } from "#domain/capture/capture.ts";
import { type Caution, cautionsFor, circumstancesOf } from "#domain/condition/cautions-for.ts";
import type { Change } from "#domain/condition/change/change-between.ts";
import { type ConditionNow, conditionNow } from "#domain/condition/condition-now.ts";
import { livesOf } from "#domain/condition/finding.ts";
import type { FindingPhotograph } from "#domain/condition/finding-photograph.ts";
import { type MethodStop, stopsOf } from "#domain/condition/method-stop.ts";
import { type NextSurvey, nextSurvey } from "#domain/condition/next-survey.ts";
import type { Survey } from "#domain/condition/survey.ts";
import type { Print } from "#domain/print/print.ts";
import { listCapturesOfPrint } from "#drizzle/queries/captures.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { findPhotograph, photographsOfPrint } from "#drizzle/queries/finding-photographs.ts";
import { judgementsOfPrint, latestFindings } from "#drizzle/queries/findings.ts";
import { placePath } from "#drizzle/queries/places.ts";
import { lastSurvey } from "#drizzle/queries/surveys.ts";
import { keptChange } from "../actions/hold-captures-against.ts";
import type { Context } from "../context.ts";
import { derivedOriginal } from "../images/derived-picture.ts";
import { sharp } from "../images/policy.ts";
import { sidePicture } from "../images/side-picture.ts";
import { canBeShown, sideToShow } from "../images/side-to-show.ts";

/** A side with its picture on the mm grid of the sheet, or why there is none. */
export type ReportSide = { readonly side: Side } & (
  | { readonly jpeg: Buffer; readonly widthMm: number; readonly heightMm: number; readonly captureName: string }
  | { readonly absent: string }
);

export type ReportPhotograph = FindingPhotograph & { readonly jpeg: Buffer };

/** Two captures of one side that have been held against each other. */
export type ReportChange = { readonly side: Side; readonly from: string; readonly to: string; readonly change: Change };

/** Everything a condition report says of one print on a day. */
export type ConditionReport = ConditionNow & {
  readonly collectionName: string;
  readonly print: Print;
  readonly placePath: readonly string[];
  readonly at: string;
  readonly survey: Survey | null;
  readonly next: NextSurvey | null;
  readonly sides: readonly ReportSide[];
  /** by finding */
  readonly photographs: ReadonlyMap<number, readonly ReportPhotograph[]>;
  /** photographs that the report has no room for */
  readonly leftOut: number;
  readonly cautions: readonly Caution[];
  readonly keptFrom: readonly MethodStop[];
  readonly changes: readonly ReportChange[];
};

/** A report is carried to a table, not an album. */
const MOST_PHOTOGRAPHS = 40;
const PHOTOGRAPH_PX = 1000;

/** Gathers what is known of a print's condition, with its pictures. */
export async function conditionReport(context: Context, print: Print): Promise<ConditionReport> {
  const { db } = context;
  const at = context.now();
  const survey = lastSurvey(db, print.id);
  const now = conditionNow(livesOf(judgementsOfPrint(db, print.id)), survey);
  const findings = latestFindings(db, [print.id]).get(print.id) ?? [];
  const circumstances = circumstancesOf(print, at.slice(0, 10), findings);
  return {
    ...now,
    collectionName: readCollection(db).name,
    print,
    placePath: print.placeId === null ? [] : placePath(db, print.placeId),
    at,
    survey,
    next: survey && nextSurvey({ ...survey, processId: print.processId, findings }),
    sides: await sidesOf(context, print),
    ...(await photographsFor(context, print, now)),
    cautions: cautionsFor(circumstances),
    keptFrom: stopsOf(circumstances),
    changes: await changesOf(context, print),
  };
}

async function sidesOf(context: Context, print: Print): Promise<ReportSide[]> {
  const sides: ReportSide[] = [];
  for (const side of SIDES) {
    const shown = sideToShow(context, print, side);
    if (!canBeShown(shown)) {
      sides.push({ side, absent: shown.absent });
      continue;
    }
    const jpeg = await sidePicture(context, shown);
    const { widthMm, heightMm } = shown.sheet;
    const captureName = shown.capture.name;
    sides.push(jpeg ? { side, jpeg, widthMm, heightMm, captureName } : { side, absent: `The capture ${captureName} cannot be read.` });
  }
  return sides;
}

/** The photographs of what stands, newest looks first where there is no room for all. */
async function photographsFor(context: Context, print: Print, { standing }: ConditionNow) {
  const all = photographsOfPrint(context.db, print.id);
  const wanted = standing.flatMap(({ life }) => life.flatMap(({ id }) => all.get(id) ?? [])).sort((a, b) => b.id - a.id);
  const photographs = new Map<number, ReportPhotograph[]>();
  for (const photograph of wanted.slice(0, MOST_PHOTOGRAPHS).reverse()) {
    const original = findPhotograph(context.db, photograph.id)?.original;
    const view = original && (await derivedOriginal(context, original, "view.jpg"));
    if (!view) continue;
    const jpeg = await sharp(view)
      .resize({ width: PHOTOGRAPH_PX, height: PHOTOGRAPH_PX, fit: "inside", withoutEnlargement: true })
      .jpeg()
      .toBuffer();
    photographs.set(photograph.findingId, [...(photographs.get(photograph.findingId) ?? []), { ...photograph, jpeg }]);
  }
  const shown = [...photographs.values()].reduce((sum, each) => sum + each.length, 0);
  return { photographs, leftOut: wanted.length - shown };
}

/** The oldest and the newest dated capture of each side, where somebody has had them held against each other. */
async function changesOf(context: Context, print: Print): Promise<ReportChange[]> {
  const dated = listCapturesOfPrint(context.db, print.id)
    .filter(({ original }) => original.capturedAt !== null)
    .sort((a, b) => ((a.original.capturedAt ?? "") < (b.original.capturedAt ?? "") ? -1 : 1));
  const changes: ReportChange[] = [];
  for (const side of SIDES) {
    const ofSide = dated.filter((capture) => capture.side === side);
    const [older, newer] = [ofSide[0], ofSide.at(-1)];
    if (!older || !newer || older === newer) continue;
    const change = await keptChange(context, { older, newer });
    if (change && !("refused" in change)) changes.push({ side, from: dayOf(older), to: dayOf(newer), change });
  }
  return changes;
}

const dayOf = ({ original }: { original: { capturedAt: string | null } }) => (original.capturedAt ?? "").slice(0, 10);
