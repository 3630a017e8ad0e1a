import { and, desc, eq, isNull, sql } from "drizzle-orm";
import { type Display, type DisplayInput, isGlazing } from "#domain/storage/display.ts";
import { type Queryable, schema } from "../client.ts";
import { groupBy } from "./group-by.ts";

const { displays, prints } = schema;

const asDisplay = ({ glazing, ...row }: typeof displays.$inferSelect): Display => ({
  id: row.id,
  printId: row.printId,
  startsOn: row.startsOn,
  endsOn: row.endsOn,
  lux: row.lux,
  hoursPerDay: row.hoursPerDay,
  glazing: isGlazing(glazing) ? glazing : "not-known",
  note: row.note,
});

/** A print's days on display, latest first. */
export function displaysOfPrint(db: Queryable, printId: number): Display[] {
  return db
    .select()
    .from(displays)
    .where(eq(displays.printId, printId))
    .orderBy(desc(displays.startsOn), desc(displays.id))
    .all()
    .map(asDisplay);
}

export type DisplayedPrint = {
  readonly id: number;
  readonly objectNumber: string;
  readonly title: string;
  readonly processId: string;
  readonly displays: readonly Display[];
};

/** Every print that was ever on display, by object number; the bin left out. */
export function displayedPrints(db: Queryable): DisplayedPrint[] {
  const rows = db
    .select({
      display: displays,
      print: { id: prints.id, objectNumber: prints.objectNumber, title: prints.title, processId: prints.processId },
    })
    .from(displays)
    .innerJoin(prints, and(eq(prints.id, displays.printId), isNull(prints.binnedAt)))
    .orderBy(prints.objectNumberSort, desc(displays.startsOn))
    .all();
  return [...groupBy(rows, ({ print }) => print.id).values()].flatMap((lot) => {
    const [first] = lot;
    return first ? [{ ...first.print, displays: lot.map(({ display }) => asDisplay(display)) }] : [];
  });
}

export function findDisplay(db: Queryable, id: number): Display | null {
  const row = db.select().from(displays).where(eq(displays.id, id)).get();
  return row ? asDisplay(row) : null;
}

export function insertDisplay(db: Queryable, printId: number, input: DisplayInput, userId: number): number {
  return db
    .insert(displays)
    .values({ ...input, printId, userId })
    .returning({ id: displays.id })
    .get().id;
}

export function endDisplayRow(db: Queryable, id: number, endsOn: string): void {
  db.update(displays).set({ endsOn }).where(eq(displays.id, id)).run();
}

export function deleteDisplayRow(db: Queryable, id: number): void {
  db.delete(displays).where(sql`${displays.id} = ${id}`).run();
}
