import { and, asc, count, desc, eq, isNotNull, isNull, type SQL, sql } from "drizzle-orm";
import type { Print } from "#domain/print/print.ts";
import type { PrintFilter } from "#domain/print/print-filter.ts";
import { type Queryable, schema } from "../client.ts";
import { needsRecapture } from "./needs-recapture.ts";
import { standsAs } from "./standing-captures.ts";

const { prints } = schema;

/** What a person writes of a print, with what is worked out from it. */
export type PrintValues = Omit<Print, "id" | "uuid" | "revision" | "binnedAt" | "createdAt" | "updatedAt">;

export type PrintListed = Print & {
  readonly captureCount: number;
  /** the capture to show: the master of the first purpose that has one, else the newest; fronts before backs */
  readonly captureId: number | null;
};

export function findPrint(db: Queryable, id: number): Print | null {
  return db.select().from(prints).where(eq(prints.id, id)).get() ?? null;
}

/** Those of the prints that are there, in the order asked for. */
export function findPrints(db: Queryable, ids: readonly number[]): Print[] {
  const rows = db
    .select()
    .from(prints)
    .where(sql`${prints.id} in (select value from json_each(${JSON.stringify(ids)}))`)
    .all();
  const byId = new Map(rows.map((print) => [print.id, print]));
  return ids.flatMap((id) => byId.get(id) ?? []);
}

export function findPrintByNumber(db: Queryable, objectNumber: string): Print | null {
  return db.select().from(prints).where(eq(prints.objectNumber, objectNumber)).get() ?? null;
}

/** Every number ever given, those of prints in the bin too: a number is never used again. */
export function listObjectNumbers(db: Queryable): string[] {
  return db
    .select({ objectNumber: prints.objectNumber })
    .from(prints)
    .all()
    .map((row) => row.objectNumber);
}

/** The prints the filter means, one page of them, and how many there are on all pages. */
export function listPrints(db: Queryable, filter: PrintFilter): { rows: PrintListed[]; total: number } {
  const meant = and(...conditions(filter));
  const total = db.select({ n: count() }).from(prints).where(meant).get()?.n ?? 0;
  const page = db
    .select({ print: prints, captureCount: CAPTURE_COUNT, captureId: CAPTURE_TO_SHOW })
    .from(prints)
    .where(meant)
    .orderBy(...order(filter))
    .limit(filter.perPage ?? -1)
    .offset(filter.perPage === null ? 0 : (filter.page - 1) * filter.perPage)
    .all();
  return { rows: page.map(({ print, captureCount, captureId }) => ({ ...print, captureCount, captureId })), total };
}

/** Prints of the collection; those in the bin do not count. */
export function countPrints(db: Queryable): number {
  return db.select({ n: count() }).from(prints).where(isNull(prints.binnedAt)).get()?.n ?? 0;
}

/** What lies in the bin, last binned first. */
export function listBinnedPrints(db: Queryable): Print[] {
  return db.select().from(prints).where(isNotNull(prints.binnedAt)).orderBy(desc(prints.binnedAt), desc(prints.id)).all();
}

export function insertPrint(db: Queryable, values: PrintValues, createdAt: string): number {
  return db
    .insert(prints)
    .values({ ...writable(values), createdAt, updatedAt: createdAt })
    .returning({ id: prints.id })
    .get().id;
}

/** Saves over the revision that was read; false when somebody else has saved since, and nothing is changed. */
export function updatePrint(db: Queryable, id: number, readRevision: number, values: PrintValues, updatedAt: string): boolean {
  const saved = db
    .update(prints)
    .set({ ...writable(values), revision: readRevision + 1, updatedAt })
    .where(and(eq(prints.id, id), eq(prints.revision, readRevision)))
    .run();
  return saved.changes === 1;
}

/** Puts a print into the bin (a moment) or takes it out again (null). */
export function setPrintBinned(db: Queryable, id: number, binnedAt: string | null): void {
  db.update(prints).set({ binnedAt }).where(eq(prints.id, id)).run();
}

// Written as plain names: in a select of one table the builder drops the table's name, and both tables have an id.
const CAPTURE_COUNT = sql<number>`(select count(*) from captures c where c.print_id = prints.id and ${standsAs("c")})`;

const CAPTURE_TO_SHOW = sql<number | null>`coalesce(
  (select ch.capture_id from choices ch join purposes pu on pu.id = ch.purpose_id join captures c on c.id = ch.capture_id
    where ch.print_id = prints.id and ch.superseded_at is null and ${standsAs("c")}
    order by ch.side = 'back', pu.position limit 1),
  (select c.id from captures c where c.print_id = prints.id and ${standsAs("c")} order by c.side = 'back', c.id desc limit 1))`;

function conditions(filter: PrintFilter): (SQL | undefined)[] {
  const words = searchWords(filter.search);
  return [
    isNull(prints.binnedAt),
    words === "" ? undefined : sql`${prints.id} in (select rowid from prints_search where prints_search match ${words})`,
    filter.processId === null ? undefined : eq(prints.processId, filter.processId),
    filter.formatId === null ? undefined : eq(prints.formatId, filter.formatId),
    filter.placeId === null ? undefined : insidePlace(filter.placeId),
    filter.firstDay === null && filter.lastDay === null ? undefined : isNotNull(prints.date),
    filter.firstDay === null ? undefined : sql`ifnull(${prints.dateLatest}, '9999-12-31') >= ${filter.firstDay}`,
    filter.lastDay === null ? undefined : sql`ifnull(${prints.dateEarliest}, '0000-01-01') <= ${filter.lastDay}`,
    filter.captures === "with" ? sql`${CAPTURE_COUNT} > 0` : undefined,
    filter.captures === "without" ? sql`${CAPTURE_COUNT} = 0` : undefined,
    filter.recapture === "any" ? undefined : needsRecapture(filter.recapture),
  ];
}

/**
 * Words as FTS5 strings, each a beginning: a raw word with a quote or a hyphen in it would be read as an operator. A control character
 * parts words as a space does: a NUL would end the string before its quote.
 */
const searchWords = (search: string): string =>
  search
    .split(/[\s\p{Cc}]+/u)
    .filter((word) => /[\p{L}\p{N}]/u.test(word))
    .map((word) => `"${word.replaceAll('"', '""')}"*`)
    .join(" ");

/** In the place or in any place inside it. */
export const insidePlace = (placeId: number): SQL => sql`${prints.placeId} in (
  with recursive inside(id) as (select ${placeId} union select p.id from places p join inside on p.parent_id = inside.id)
  select id from inside)`;

/** The number settles equal titles, dates and moments, so that pages never repeat or lose a print. */
function order({ sort, direction }: PrintFilter): SQL[] {
  const turn = direction === "up" ? asc : desc;
  const byNumber = turn(prints.objectNumberSort);
  if (sort === "title") return [sql`${prints.title} = ''`, turn(sql`${prints.title} collate nocase`), byNumber];
  if (sort === "date")
    return [
      sql`${prints.date} is null`,
      turn(sql`coalesce(${prints.dateEarliest}, ${prints.dateLatest})`),
      turn(sql`coalesce(${prints.dateLatest}, ${prints.dateEarliest})`),
      byNumber,
    ];
  if (sort === "updated") return [turn(prints.updatedAt), turn(prints.id)];
  return [byNumber];
}

const writable = (values: PrintValues): typeof prints.$inferInsert => ({
  ...values,
  people: [...values.people],
  subjects: [...values.subjects],
});
