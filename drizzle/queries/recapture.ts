import { and, isNull, type SQL } from "drizzle-orm";
import type { Purpose } from "#domain/aim/aim.ts";
import { SIDES, type Side } from "#domain/capture/capture.ts";
import type { Method } from "#domain/capture/method.ts";
import { circumstancesOf, contraIndication } from "#domain/condition/cautions-for.ts";
import type { Print } from "#domain/print/print.ts";
import { ALL_PRINTS } from "#domain/print/print-filter.ts";
import { inOrderOfWork, recaptureLine } from "#domain/recapture/list.ts";
import type { RecaptureLine } from "#domain/recapture/recapture-line.ts";
import { flatten, placeTree } from "#domain/storage/place-tree.ts";
import { type Queryable, schema } from "../client.ts";
import { listPurposes } from "./aims.ts";
import { listShortChoices } from "./choices.ts";
import { isSaidOf, standingExemptions } from "./exemptions.ts";
import { filesOfPrints } from "./files-of-prints.ts";
import { latestFindings } from "./findings.ts";
import { groupBy } from "./group-by.ts";
import { FRONT_WITHOUT_CAPTURE, fallsShort } from "./needs-recapture.ts";
import { listPlaces } from "./places.ts";
import { listPrints } from "./prints.ts";

/** One line of the recapture list before anything is read for it. */
export type RecaptureTask = Pick<RecaptureLine, "printId" | "objectNumber" | "placePath" | "side" | "why">;

/** What the recapture list of a purpose holds, in its order: first what was never captured, then what falls short. */
export function recaptureTasks(db: Queryable, purposeId: number): RecaptureTask[] {
  const { prints } = schema;
  const paths = new Map(flatten(placeTree(listPlaces(db))).map((place) => [place.id, place.path]));
  const tasks = (why: RecaptureTask["why"], side: Side, isMeant: SQL) =>
    db
      .select({ printId: prints.id, objectNumber: prints.objectNumber, placeId: prints.placeId })
      .from(prints)
      .where(and(isNull(prints.binnedAt), isMeant))
      .all()
      .map(({ placeId, ...print }): RecaptureTask => ({ ...print, side, why, placePath: (placeId && paths.get(placeId)) || [] }));
  return [
    ...inOrderOfWork(tasks("no-capture", "front", FRONT_WITHOUT_CAPTURE)),
    ...inOrderOfWork(SIDES.flatMap((side) => tasks("falls-short", side, fallsShort({ side, purposeId })))),
  ];
}

/**
 * Sides of prints whose best capture does not meet what a purpose asks, and fronts that were never
 * captured, in the order of the work. For the first purpose alone, unless others are asked for.
 * @param today YYYY-MM-DD, for the cautions that end with time
 */
export function recaptureList(
  db: Queryable,
  today: string,
  {
    purposes = listPurposes(db).slice(0, 1),
    prints = listPrints(db, ALL_PRINTS).rows,
  }: { purposes?: readonly Purpose[]; prints?: readonly Print[] } = {},
): RecaptureLine[] {
  const ids = prints.map((print) => print.id);
  const short = listShortChoices(db, { printIds: ids, purposeIds: purposes.map((purpose) => purpose.id) });
  const choices = groupBy(short, (choice) => choice.printId);
  const files = filesOfPrints(db, ids);
  const findings = latestFindings(db, ids);
  const exemptions = standingExemptions(db, ids);
  const paths = new Map(flatten(placeTree(listPlaces(db))).map((place) => [place.id, place.path]));
  const lines = prints.flatMap((print) => {
    const circumstances = circumstancesOf(print, today, findings.get(print.id));
    return SIDES.flatMap((side) =>
      purposes.flatMap((purpose) => {
        const captures = (files.get(print.id) ?? []).filter((file) => file.side === side);
        const line = recaptureLine({
          printId: print.id,
          objectNumber: print.objectNumber,
          title: print.title,
          processId: print.processId,
          placePath: print.placeId === null ? [] : (paths.get(print.placeId) ?? []),
          side,
          purpose,
          captures,
          stillMeasuring: captures.some((file) => file.isMeasuring),
          choice: choices.get(print.id)?.find((choice) => choice.side === side && choice.purpose.id === purpose.id) ?? null,
          isExempt: exemptions.some((said) => isSaidOf(said, { printId: print.id, side, purposeId: purpose.id })),
          refusal: (method: Method) => contraIndication(method, circumstances),
        });
        return line ? [line] : [];
      }),
    );
  });
  return inOrderOfWork(lines);
}
