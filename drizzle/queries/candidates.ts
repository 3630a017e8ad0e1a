import { sql } from "drizzle-orm";
import type { Side } from "#domain/capture/capture.ts";
import type { Candidate } from "#domain/master/choose.ts";
import type { Reading } from "#domain/measure/reading.ts";
import { type Queryable, schema } from "../client.ts";
import { listCapturesOfPrint } from "./captures.ts";
import { type Damage, damageOfOriginals } from "./fixity.ts";
import { readingsOfCaptures } from "./measures.ts";

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
        exists (select 1 from ${captures} where ${captures.printId} = ${prints.id} and not ${captures.divided})
        or exists (select 1 from ${choices} where ${choices.printId} = ${prints.id} and ${choices.supersededAt} is null))`,
    )
    .orderBy(prints.objectNumberSort)
    .all()
    .map((row) => row.id);
}

/** Ids of the prints for which the rule chose by an aim that is no longer the current one; what a person chose stands. */
export function listPrintsChosenByOlderAims(db: Queryable): number[] {
  const { prints } = schema;
  return db
    .select({ id: prints.id })
    .from(prints)
    .where(
      sql`${prints.binnedAt} is null and exists (select 1 from choices ch join aims a on a.id = ch.aim_id
        where ch.print_id = prints.id and ch.superseded_at is null and ch.decided_by = 'rule' and not a.current)`,
    )
    .orderBy(prints.objectNumberSort)
    .all()
    .map((row) => row.id);
}
