import { Hono, type Context as Request } from "hono";
import { cautionsFor } from "#domain/condition/cautions-for.ts";
import type { Refusal } from "#domain/outcome.ts";
import { exemptionReason, workSheetInput } from "#domain/recapture/work-sheet-input.ts";
import { flatten, pathInWords, placeTree } from "#domain/storage/place-tree.ts";
import { listPurposes } from "#drizzle/queries/aims.ts";
import { findCapture } from "#drizzle/queries/captures.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { type ExemptionListed, exemptionsOfPurpose } from "#drizzle/queries/exemptions.ts";
import { latestFindings } from "#drizzle/queries/findings.ts";
import { listPlaces } from "#drizzle/queries/places.ts";
import { findPrint } from "#drizzle/queries/prints.ts";
import {
  findRow,
  findWorkSheet,
  listWorkSheets,
  rowsOfWorkSheet,
  type WorkSheetListed,
  type WorkSheetRowListed,
} from "#drizzle/queries/work-sheets.ts";
import { isWaiting, type ShownSheetRow, WorkSheetPage } from "#views/pages/work-sheet.tsx";
import { WorkSheetsPage } from "#views/pages/work-sheets.tsx";
import type { FormState, Typed } from "#views/parts/field.tsx";
import { askAgain, exemptFromRecapture } from "../actions/exempt-from-recapture.ts";
import { makeWorkSheet } from "../actions/make-work-sheet.ts";
import { putAwayWorkSheet } from "../actions/put-away-work-sheet.ts";
import { ROW_GONE, tickRow } from "../actions/tick-row.ts";
import { circumstancesOfPrint } from "../circumstances-of-print.ts";
import type { Context } from "../context.ts";
import { failingPicture } from "../recapture/failing-overlays.ts";
import { idIn, readForm, refusalsOf } from "./form.ts";

/** Sheets to go to the copy stand with, and what is ticked off there. */
export function workSheetRoutes(context: Context): Hono {
  const sheet = (c: Request): WorkSheetListed | null => {
    const id = idIn(c);
    return id === null ? null : findWorkSheet(context.db, id);
  };

  const showSheets = (c: Request, status: 200 | 422, form: FormState) =>
    c.html(
      WorkSheetsPage({
        collectionName: readCollection(context.db).name,
        sheets: listWorkSheets(context.db),
        purposes: listPurposes(context.db),
        places: flatten(placeTree(listPlaces(context.db))).map(({ id, path, printCountInside }) => ({
          id,
          name: pathInWords(path),
          prints: printCountInside,
        })),
        form,
        done: c.req.query("done"),
      }),
      status,
    );

  const showSheet = async (
    c: Request,
    of: WorkSheetListed,
    status: 200 | 422,
    refused: { rowId: number; form: FormState } | null,
    refusals: readonly Refusal[] = [],
  ) =>
    c.html(
      WorkSheetPage({
        collectionName: readCollection(context.db).name,
        sheet: of,
        rows: await rowsShown(of),
        refused,
        refusals,
        done: c.req.query("done"),
        lessUrgent: /^\d{1,6}$/.test(c.req.query("left") ?? "") ? Number(c.req.query("left")) : 0,
      }),
      status,
    );

  async function rowsShown(of: WorkSheetListed): Promise<ShownSheetRow[]> {
    const said = exemptionsOfPurpose(context.db, of.purpose.id);
    const rows = rowsOfWorkSheet(context.db, of.id).map((row) => shownRow(context, row, exemptionOf(said, row)));
    return Promise.all(rows);
  }

  return new Hono()
    .get("/work-sheets", (c) => showSheets(c, 200, { typed: { purpose: c.req.query("purpose") ?? "" }, refusals: [] }))

    .post("/work-sheets", async (c) => {
      const typed = await readForm(c);
      const refuse = (refusals: readonly Refusal[]) => showSheets(c, 422, { typed, refusals });
      const read = workSheetInput.safeParse(typed);
      if (!read.success) return refuse(refusalsOf(read.error));
      const made = makeWorkSheet(context, read.data);
      if (!made.ok) return refuse(made.refusals);
      const { sheetId, lessUrgent } = made.value;
      return c.redirect(`/work-sheets/${sheetId}?done=work-sheet-made${lessUrgent > 0 ? `&left=${lessUrgent}` : ""}`, 303);
    })

    .get("/work-sheets/:id{[0-9]+}", (c) => {
      const found = sheet(c);
      return found ? showSheet(c, found, 200, null) : c.notFound();
    })

    .post("/work-sheets/:id{[0-9]+}/put-away", async (c) => {
      const found = sheet(c);
      if (!found) return c.notFound();
      const step = (await readForm(c)).step === "take-out" ? "take-out" : "put-away";
      const put = putAwayWorkSheet(context, found.id, step);
      if (!put.ok) return showSheet(c, found, 422, null, put.refusals);
      return c.redirect(step === "put-away" ? "/work-sheets?done=work-sheet-put-away" : `/work-sheets/${found.id}`, 303);
    })

    .post("/work-sheets/:id{[0-9]+}/rows/:row{[0-9]+}", async (c) => {
      const found = sheet(c);
      if (!found) return c.notFound();
      const rowId = Number(c.req.param("row"));
      const typed = await readForm(c);
      const refusals = change(found, rowId, typed);
      if (refusals === null) return c.redirect(`/work-sheets/${found.id}#row-${rowId}`, 303);
      return showSheet(c, found, 422, { rowId, form: { typed, refusals } });
    });

  /** Null when it is done. */
  function change(of: WorkSheetListed, rowId: number, typed: Typed): readonly Refusal[] | null {
    if (typed.step === "ask-again") {
      const row = findRow(context.db, of.id, rowId);
      const said = row && exemptionOf(exemptionsOfPurpose(context.db, of.purpose.id), row);
      if (!said) return [ROW_GONE];
      const asked = askAgain(context, { exemptionId: said.id });
      return asked.ok ? null : asked.refusals;
    }
    if (typed.step !== "good-enough") {
      const ticked = tickRow(context, { sheetId: of.id, rowId }, typed.step === "untick" ? "untick" : "tick");
      return ticked.ok ? null : ticked.refusals;
    }
    const row = findRow(context.db, of.id, rowId);
    if (!row) return [ROW_GONE];
    const reason = exemptionReason.safeParse(typed.reason);
    if (!reason.success) return refusalsOf(reason.error).map((refusal) => ({ ...refusal, about: "reason" }));
    const { printId, side } = row;
    const made = exemptFromRecapture(context, { printId, side, purposeKey: of.purpose.key, reason: reason.data });
    return made.ok ? null : made.refusals;
  }
}

/** What a person said of the side that a row speaks of, as long as it holds. */
const exemptionOf = (said: readonly ExemptionListed[], { printId, side }: Pick<WorkSheetRowListed, "printId" | "side">) =>
  said.find((each) => each.printId === printId && each.side === side) ?? null;

async function shownRow(context: Context, row: WorkSheetRowListed, goodEnough: ExemptionListed | null): Promise<ShownSheetRow> {
  const print = findPrint(context.db, row.printId);
  const today = context.now().slice(0, 10);
  const findings = latestFindings(context.db, [row.printId]).get(row.printId);
  const closedBy = row.closedByCaptureId === null ? null : findCapture(context.db, row.closedByCaptureId);
  return {
    ...row,
    cautions: print ? cautionsFor(circumstancesOfPrint(context.db, print, today, findings)) : [],
    picture:
      row.captureId === null || !isWaiting(row)
        ? null
        : await failingPicture(
            context,
            row.captureId,
            row.reasons.map(({ measure }) => measure),
          ),
    goodEnough,
    closedBy: closedBy ? { captureId: closedBy.id, fileName: closedBy.original.originalName } : null,
  };
}
