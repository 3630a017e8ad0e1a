import { and, asc, desc, eq, inArray, isNull, sql } from "drizzle-orm";
import type { Side } from "#domain/capture/capture.ts";
import type { RowState } from "#domain/recapture/judged-row.ts";
import type { SheetCounts } from "#domain/recapture/work-sheet.ts";
import { type Queryable, schema } from "../client.ts";

const { prints, purposes, users, workSheetRows, workSheets } = schema;

export type WorkSheet = {
  readonly id: number;
  readonly name: string;
  readonly purpose: { readonly id: number; readonly key: string; readonly name: string };
  readonly who: string | null;
  readonly createdAt: string;
  readonly putAwayAt: string | null;
};
export type WorkSheetListed = WorkSheet & { readonly counts: SheetCounts };

export type WorkSheetRow = typeof workSheetRows.$inferSelect;
export type WorkSheetRowListed = WorkSheetRow & { readonly objectNumber: string; readonly title: string };
export type NewRow = Omit<typeof workSheetRows.$inferInsert, "id" | "sheetId" | "position">;

export function insertWorkSheet(
  db: Queryable,
  { rows, ...sheet }: { name: string; purposeId: number; userId: number; createdAt: string; rows: readonly NewRow[] },
): number {
  const { id } = db.insert(workSheets).values(sheet).returning({ id: workSheets.id }).get();
  for (const [position, row] of rows.entries())
    db.insert(workSheetRows)
      .values({ ...row, sheetId: id, position })
      .run();
  return id;
}

/** Rows of prints that lie in the bin are left out everywhere. */
const inState = (state: RowState) =>
  sql<number>`count(case when ${prints.id} is not null and ${workSheetRows.state} = ${state} then 1 end)`;

const listed = (db: Queryable) =>
  db
    .select({
      id: workSheets.id,
      name: workSheets.name,
      purpose: { id: purposes.id, key: purposes.key, name: purposes.name },
      who: users.name,
      createdAt: workSheets.createdAt,
      putAwayAt: workSheets.putAwayAt,
      open: inState("open"),
      ticked: inState("ticked"),
      closed: inState("closed"),
      letGo: inState("let-go"),
    })
    .from(workSheets)
    .innerJoin(purposes, eq(purposes.id, workSheets.purposeId))
    .leftJoin(users, eq(users.id, workSheets.userId))
    .leftJoin(workSheetRows, eq(workSheetRows.sheetId, workSheets.id))
    .leftJoin(prints, and(eq(prints.id, workSheetRows.printId), isNull(prints.binnedAt)))
    .groupBy(workSheets.id)
    .$dynamic();

/** The newest first. */
export function listWorkSheets(db: Queryable, most = 100): WorkSheetListed[] {
  return listed(db).orderBy(desc(workSheets.id)).limit(most).all().map(told);
}

export function findWorkSheet(db: Queryable, id: number): WorkSheetListed | null {
  const row = listed(db).where(eq(workSheets.id, id)).get();
  return row ? told(row) : null;
}

function told({ open, ticked, closed, letGo, ...sheet }: WorkSheet & { open: number; ticked: number; closed: number; letGo: number }) {
  return { ...sheet, counts: { open, ticked, closed, "let-go": letGo } };
}

export function setPutAway(db: Queryable, id: number, putAwayAt: string | null): void {
  db.update(workSheets).set({ putAwayAt }).where(eq(workSheets.id, id)).run();
}

/** The rows of a sheet in the order of the work. */
export function rowsOfWorkSheet(db: Queryable, sheetId: number): WorkSheetRowListed[] {
  return db
    .select({ row: workSheetRows, objectNumber: prints.objectNumber, title: prints.title })
    .from(workSheetRows)
    .innerJoin(prints, eq(prints.id, workSheetRows.printId))
    .where(and(eq(workSheetRows.sheetId, sheetId), isNull(prints.binnedAt)))
    .orderBy(asc(workSheetRows.position))
    .all()
    .map(({ row, ...print }) => ({ ...row, ...print }));
}

type OfSide = { readonly printId: number; readonly side: Side; readonly purposeId: number };

/** The rows that speak of one side of a print for a purpose, on whatever sheet. */
export function rowsOfSide(db: Queryable, { printId, side, purposeId }: OfSide): WorkSheetRow[] {
  return db
    .select({ row: workSheetRows })
    .from(workSheetRows)
    .innerJoin(workSheets, eq(workSheets.id, workSheetRows.sheetId))
    .where(and(eq(workSheetRows.printId, printId), eq(workSheetRows.side, side), eq(workSheets.purposeId, purposeId)))
    .orderBy(asc(workSheetRows.id))
    .all()
    .map(({ row }) => row);
}

/** Sides that wait on a sheet of a purpose already, as "print id side". */
export function waitingSides(db: Queryable, purposeId: number): Set<string> {
  const rows = db
    .select({ printId: workSheetRows.printId, side: workSheetRows.side })
    .from(workSheetRows)
    .innerJoin(workSheets, eq(workSheets.id, workSheetRows.sheetId))
    .where(and(eq(workSheets.purposeId, purposeId), inArray(workSheetRows.state, ["open", "ticked"])))
    .all();
  return new Set(rows.map(({ printId, side }) => `${printId} ${side}`));
}

export function findRow(db: Queryable, sheetId: number, rowId: number): WorkSheetRow | null {
  const row = db
    .select()
    .from(workSheetRows)
    .where(and(eq(workSheetRows.id, rowId), eq(workSheetRows.sheetId, sheetId)))
    .get();
  return row ?? null;
}

export function updateRow(db: Queryable, rowId: number, change: Partial<Omit<NewRow, "printId" | "side">>): void {
  db.update(workSheetRows).set(change).where(eq(workSheetRows.id, rowId)).run();
}
