import { and, asc, eq, sql } from "drizzle-orm";
import { MEASURES, type MeasureName } from "#domain/measure/catalogue.ts";
import { holdingReadings } from "#domain/measure/holding-readings.ts";
import { isPresent, type Reading } from "#domain/measure/reading.ts";
import { type Queryable, schema } from "../client.ts";

export type MeasureFamily = "alone" | "together";

/** A reading as kept, with the unit and the version of the method that read it. */
export type StoredReading = Reading & { readonly unit: string; readonly methodVersion: number; readonly family: MeasureFamily };

export type MeasureSet = {
  readonly basis: Record<string, unknown>;
  readonly durationMs: number | null;
  readonly createdAt: string;
};

/** Puts a whole new set in the place of the current one. Call it in a transaction: old or new, never half. */
export function replaceReadings(
  db: Queryable,
  captureId: number,
  family: MeasureFamily,
  made: { readings: readonly Reading[]; basis: Record<string, unknown>; durationMs: number | null },
): void {
  db.delete(schema.measureSets)
    .where(and(eq(schema.measureSets.captureId, captureId), eq(schema.measureSets.family, family)))
    .run();
  const set = db
    .insert(schema.measureSets)
    .values({ captureId, family, current: true, basis: made.basis, durationMs: made.durationMs })
    .returning({ id: schema.measureSets.id })
    .get();
  for (const reading of made.readings) {
    const { unit, version } = MEASURES[reading.name];
    const common = { setId: set.id, name: reading.name, methodVersion: version, unit };
    const { name: _, ...rest } = isPresent(reading)
      ? { ...reading, spread: finite(reading.spread) }
      : { name: reading.name, absentReason: reading.absent };
    db.insert(schema.measures)
      .values({ ...common, ...rest })
      .run();
  }
}

/** The current readings of each capture that hold (see holding-readings.ts). */
export function readingsOfCaptures(db: Queryable, captureIds: readonly number[]): Map<number, StoredReading[]> {
  const rows = db
    .select({ captureId: schema.measureSets.captureId, family: schema.measureSets.family, measure: schema.measures })
    .from(schema.measures)
    .innerJoin(schema.measureSets, eq(schema.measureSets.id, schema.measures.setId))
    .where(
      and(
        eq(schema.measureSets.current, true),
        sql`${schema.measureSets.captureId} in (select value from json_each(${JSON.stringify(captureIds)}))`,
      ),
    )
    .orderBy(asc(schema.measures.id))
    .all();
  const readings = new Map<number, StoredReading[]>(captureIds.map((id) => [id, []]));
  for (const row of rows) {
    const reading = storedReading(row.measure, row.family);
    if (reading) readings.get(row.captureId)?.push(reading);
  }
  const ofFamily = (all: readonly StoredReading[], family: MeasureFamily) => all.filter((reading) => reading.family === family);
  return new Map([...readings].map(([id, all]) => [id, holdingReadings(ofFamily(all, "alone"), ofFamily(all, "together"))]));
}

/** When and from what a capture's current set was read; null when it never was. */
export function findMeasureSet(db: Queryable, captureId: number, family: MeasureFamily): MeasureSet | null {
  return (
    db
      .select({ basis: schema.measureSets.basis, durationMs: schema.measureSets.durationMs, createdAt: schema.measureSets.createdAt })
      .from(schema.measureSets)
      .where(and(eq(schema.measureSets.captureId, captureId), eq(schema.measureSets.family, family), eq(schema.measureSets.current, true)))
      .get() ?? null
  );
}

/** Drops a family of readings that no longer holds, e.g. a comparison whose other captures left. */
export function forgetReadings(db: Queryable, captureId: number, family: MeasureFamily): void {
  db.delete(schema.measureSets)
    .where(and(eq(schema.measureSets.captureId, captureId), eq(schema.measureSets.family, family)))
    .run();
}

const finite = (value: number | undefined) => (value !== undefined && Number.isFinite(value) ? value : null);

/** Null for a measure this version no longer knows. */
function storedReading(row: typeof schema.measures.$inferSelect, family: MeasureFamily): StoredReading | null {
  if (!Object.hasOwn(MEASURES, row.name)) return null;
  const name = row.name as MeasureName;
  const kept = { name, unit: row.unit, methodVersion: row.methodVersion, family };
  if (row.value === null || row.reliability === null) return { ...kept, absent: row.absentReason ?? "" };
  return {
    ...kept,
    value: row.value,
    reliability: row.reliability,
    ...(row.spread !== null && { spread: row.spread }),
    ...(row.bound !== null && { bound: row.bound }),
    ...(row.note !== null && { note: row.note }),
    ...(row.detail !== null && { detail: row.detail }),
  };
}
