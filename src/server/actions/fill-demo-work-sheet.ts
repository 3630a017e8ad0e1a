import { workSheetInput } from "#domain/recapture/work-sheet-input.ts";
import { listPlaces } from "#drizzle/queries/places.ts";
import { findPrintByNumber } from "#drizzle/queries/prints.ts";
import { listWorkSheets } from "#drizzle/queries/work-sheets.ts";
import { DEMO_GOOD_ENOUGH, DEMO_WORK_SHEET } from "../../../demo-collection/work-sheet.ts";
import type { Context } from "../context.ts";
import { exemptFromRecapture } from "./exempt-from-recapture.ts";
import { makeWorkSheet } from "./make-work-sheet.ts";

/** A work sheet of the demo, and what the family let be; once, when the captures are measured. What a keeper did meanwhile stands. */
export function fillDemoWorkSheet(context: Context): void {
  if (listWorkSheets(context.db).length > 0) return;
  for (const { objectNumber, ...said } of DEMO_GOOD_ENOUGH) {
    const print = findPrintByNumber(context.db, objectNumber);
    if (print) exemptFromRecapture(context, { printId: print.id, ...said });
  }
  const place = listPlaces(context.db).find(({ name }) => name === DEMO_WORK_SHEET.place);
  const { name, most } = DEMO_WORK_SHEET;
  if (place) makeWorkSheet(context, workSheetInput.parse({ name, most, placeId: String(place.id) }));
}
