import { and, count, desc, eq, gte, lt, max, min, sql } from "drizzle-orm";
import type { ClimateReading } from "#domain/storage/climate/read-row.ts";
import type { ClimateSeries } from "#domain/storage/climate/series.ts";
import { type Database, type Queryable, schema } from "../client.ts";

const { climateImports, climateReadings, places, prints, users } = schema;

export type ClimateImport = {
  readonly id: number;
  readonly placeId: number;
  /** null: typed */
  readonly fileName: string | null;
  readonly readingCount: number;
  readonly report: Readonly<Record<string, unknown>>;
  readonly who: string | null;
  readonly createdAt: string;
};

const IMPORT = {
  id: climateImports.id,
  placeId: climateImports.placeId,
  fileName: climateImports.fileName,
  readingCount: climateImports.readingCount,
  report: climateImports.report,
  who: users.name,
  createdAt: climateImports.createdAt,
};

/** What was read into a place, newest first. */
export function listClimateImports(db: Queryable, placeId: number): ClimateImport[] {
  return db
    .select(IMPORT)
    .from(climateImports)
    .leftJoin(users, eq(users.id, climateImports.userId))
    .where(eq(climateImports.placeId, placeId))
    .orderBy(desc(climateImports.id))
    .all();
}

export function findClimateImport(db: Queryable, id: number): ClimateImport | null {
  const found = db
    .select(IMPORT)
    .from(climateImports)
    .leftJoin(users, eq(users.id, climateImports.userId))
    .where(eq(climateImports.id, id))
    .get();
  return found ?? null;
}

export function insertClimateImport(db: Queryable, values: typeof climateImports.$inferInsert): number {
  return db.insert(climateImports).values(values).returning({ id: climateImports.id }).get().id;
}

export function insertReading(db: Queryable, placeId: number, importId: number, reading: ClimateReading): boolean {
  const made = db
    .insert(climateReadings)
    .values({ ...reading, placeId, importId })
    .onConflictDoNothing()
    .run();
  return made.changes === 1;
}

/** Takes the readings of one import out again, and the import with them. */
export function deleteClimateImport(db: Queryable, { id, placeId }: Pick<ClimateImport, "id" | "placeId">): void {
  db.delete(climateReadings)
    .where(and(eq(climateReadings.placeId, placeId), eq(climateReadings.importId, id)))
    .run();
  db.delete(climateImports).where(eq(climateImports.id, id)).run();
}

export type ReadingSpan = { readonly firstSeconds: number; readonly lastSeconds: number };

/** From the first to the last reading of a place; null where there is none. */
export function readingSpan(db: Queryable, placeId: number): ReadingSpan | null {
  const of = eq(climateReadings.placeId, placeId);
  // two questions: SQLite answers each by one look into the key, both together by reading every row
  const first = db
    .select({ at: min(climateReadings.atSeconds) })
    .from(climateReadings)
    .where(of)
    .get()?.at;
  const last = db
    .select({ at: max(climateReadings.atSeconds) })
    .from(climateReadings)
    .where(of)
    .get()?.at;
  return first == null || last == null ? null : { firstSeconds: first, lastSeconds: last };
}

/** Places that have readings of their own. */
export function placesWithReadings(db: Queryable): Set<number> {
  const held = sql<number>`exists (select 1 from ${climateReadings} r where r.place_id = ${places.id})`;
  const rows = db.select({ id: places.id }).from(places).where(held).all();
  return new Set(rows.map(({ id }) => id));
}

/** A place's readings from a moment on and before another one. */
export function climateSeries(db: Database, placeId: number, fromSeconds: number, toSeconds: number): ClimateSeries {
  const within = and(
    eq(climateReadings.placeId, placeId),
    gte(climateReadings.atSeconds, fromSeconds),
    lt(climateReadings.atSeconds, toSeconds),
  );
  const many = db.select({ n: count() }).from(climateReadings).where(within).get()?.n ?? 0;
  const atSeconds = new Float64Array(many);
  const temperatureC = new Float32Array(many).fill(Number.NaN);
  const humidityPercent = new Float32Array(many).fill(Number.NaN);
  const rows = db.$client
    .prepare(
      "select at_seconds, temperature_centi_c, humidity_centi_percent from climate_readings where place_id = ? and at_seconds >= ? and at_seconds < ? order by at_seconds",
    )
    .raw()
    .iterate(placeId, fromSeconds, toSeconds) as IterableIterator<[number, number | null, number | null]>;
  let i = 0;
  for (const [at, temperature, humidity] of rows) {
    if (i >= many) break;
    atSeconds[i] = at;
    if (temperature !== null) temperatureC[i] = temperature / 100;
    if (humidity !== null) humidityPercent[i] = humidity / 100;
    i++;
  }
  return { fromSeconds, toSeconds, atSeconds, temperatureC, humidityPercent };
}

/** Processes of the prints in each place, the bin left out, by place id. */
export function processesByPlace(db: Queryable): Map<number, string[]> {
  const rows = db
    .selectDistinct({ placeId: prints.placeId, processId: prints.processId })
    .from(prints)
    .where(sql`${prints.placeId} is not null and ${prints.binnedAt} is null`)
    .orderBy(prints.processId)
    .all();
  const by = new Map<number, string[]>();
  for (const { placeId, processId } of rows) if (placeId !== null) by.set(placeId, [...(by.get(placeId) ?? []), processId]);
  return by;
}
