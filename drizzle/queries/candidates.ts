import { sql } from "drizzle-orm";
import type { Side } from "#domain/capture/capture.ts";
import type { Candidate } from "#domain/master/choose.ts";
import type { MeasureName } from "#domain/measure/catalogue.ts";
import { holdingReadings } from "#domain/measure/holding-readings.ts";
import type { Reading, Reliability } from "#domain/measure/reading.ts";
import { type Queryable, schema } from "../client.ts";
import { listCapturesOfPrint } from "./captures.ts";
import { type Damage, damageOfOriginals } from "./fixity.ts";
import { groupBy } from "./group-by.ts";
import { readingsOfCaptures } from "./measures.ts";
import { STANDS } from "./standing-captures.ts";

const NO_LONGER_SHOWS: Readonly<Record<Damage, string>> = {
  changed: "its file is damaged: it is not what was taken in",
  missing: "its file is gone",
  unreadable: "its file could not be read when it was checked",
};

/**
 * The captures of each side of a print, with what is read from them now. A file that was found damaged since shows nothing of
 * what was once measured from it.
 */
export function candidatesOfPrint(db: Queryable, printId: number): Record<Side, Candidate[]> {
  const captures = listCapturesOfPrint(db, printId);
  const readings = readingsOfCaptures(
    db,
    captures.map((capture) => capture.id),
  );
  const damage = damageOfOriginals(
    db,
    captures.map((capture) => capture.originalId),
  );
  const shownBy = ({ id, originalId }: { id: number; originalId: number }): Reading[] => {
    const damaged = damage.get(originalId);
    const read = readings.get(id) ?? [];
    return damaged ? read.map(({ name }) => ({ name, absent: NO_LONGER_SHOWS[damaged] })) : read;
  };
  const ofSide = (side: Side): Candidate[] =>
    captures
      .filter((capture) => capture.side === side)
      .map((capture) => ({
        captureId: capture.id,
        fileName: capture.name,
        readings: new Map(shownBy(capture).map((reading) => [reading.name, reading])),
      }));
  return { front: ofSide("front"), back: ofSide("back") };
}

/** Ids of the prints there is something to choose for: those with a capture, or with a choice that may no longer hold. */
export function listPrintsToChooseFor(db: Queryable): number[] {
  const { captures, choices, prints } = schema;
  return db
    .select({ id: prints.id })
    .from(prints)
    .where(
      sql`${prints.binnedAt} is null and (
        exists (select 1 from ${captures} where ${captures.printId} = ${prints.id} and ${STANDS})
        or exists (select 1 from ${choices} where ${choices.printId} = ${prints.id} and ${choices.supersededAt} is null))`,
    )
    .orderBy(prints.objectNumberSort)
    .all()
    .map((row) => row.id);
}

/**
 * Ids of the prints for which the rule chose by an aim that is no longer the current one, or not yet for a purpose that is new; what a
 * person chose stands.
 * @param purposeId only for this purpose
 */
export function listPrintsChosenByOlderAims(db: Queryable, purposeId: number | null = null): number[] {
  const { prints } = schema;
  const isMeant = purposeId === null ? sql`p.set_aside_at is null` : sql`p.set_aside_at is null and p.id = ${purposeId}`;
  return db
    .select({ id: prints.id })
    .from(prints)
    .where(
      sql`${prints.binnedAt} is null and (
        exists (select 1 from choices ch join aims a on a.id = ch.aim_id join purposes p on p.id = ch.purpose_id
          where ch.print_id = prints.id and ch.superseded_at is null and ch.decided_by = 'rule' and not a.current and ${isMeant})
        or exists (select 1 from choices ch join purposes p on ${isMeant}
          where ch.print_id = prints.id and ch.superseded_at is null and not exists (select 1 from choices made
            where made.print_id = ch.print_id and made.side = ch.side and made.purpose_id = p.id and made.superseded_at is null)))`,
    )
    .orderBy(prints.objectNumberSort)
    .all()
    .map((row) => row.id);
}

/** A capture with what an aim needs of it, and no more. */
export type LeanCandidate = Candidate & { readonly printId: number; readonly side: Side };

/** The captures of many prints with the readings of some measures, without their notes and details: for counting over a whole collection. */
export function leanCandidates(db: Queryable, printIds: readonly number[], measures: readonly string[]): LeanCandidate[] {
  const among = (ids: readonly (number | string)[]) => sql`(select value from json_each(${JSON.stringify(ids)}))`;
  const { captures, measureSets, measures: kept } = schema;
  const found = db
    .select({ id: captures.id, printId: captures.printId, side: captures.side, originalId: captures.originalId })
    .from(captures)
    .where(sql`${captures.printId} in ${among(printIds)} and ${STANDS}`)
    .orderBy(captures.id)
    .all();
  const rows = db
    .select({
      captureId: measureSets.captureId,
      family: measureSets.family,
      name: kept.name,
      value: kept.value,
      spread: kept.spread,
      bound: kept.bound,
      reliability: kept.reliability,
      absent: kept.absentReason,
    })
    .from(measureSets)
    .innerJoin(kept, sql`${kept.setId} = ${measureSets.id} and ${kept.name} in ${among(measures)}`)
    .where(sql`${measureSets.current} and ${measureSets.captureId} in ${among(found.map(({ id }) => id))}`)
    .all();
  const read = groupBy(rows, (row) => row.captureId);
  const damage = damageOfOriginals(
    db,
    found.map(({ originalId }) => originalId),
  );
  return found.flatMap(({ id, printId, side, originalId }) => {
    const ofFamily = (family: string) => (read.get(id) ?? []).filter((row) => row.family === family).map(lean);
    const readings = holdingReadings(ofFamily("alone"), ofFamily("together"));
    const damaged = damage.get(originalId);
    const shown = damaged ? readings.map(({ name }): Reading => ({ name, absent: NO_LONGER_SHOWS[damaged] })) : readings;
    const candidate = { captureId: id, fileName: "", readings: new Map(shown.map((reading) => [reading.name, reading])) };
    return printId === null ? [] : [{ ...candidate, printId, side }];
  });
}

function lean(row: {
  name: string;
  value: number | null;
  spread: number | null;
  bound: "lower" | "upper" | null;
  reliability: Reliability | null;
  absent: string | null;
}): Reading {
  const name = row.name as MeasureName;
  if (row.value === null || row.reliability === null) return { name, absent: row.absent ?? "" };
  return {
    name,
    value: row.value,
    reliability: row.reliability,
    ...(row.spread !== null && { spread: row.spread }),
    ...(row.bound !== null && { bound: row.bound }),
  };
}
