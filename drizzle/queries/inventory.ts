import { cautionsFor, circumstancesOf } from "#domain/condition/cautions-for.ts";
import type { InventoryRow } from "#domain/inventory/inventory-row.ts";
import { inventoryRow } from "#domain/inventory/rows.ts";
import type { PrintFilter } from "#domain/print/print-filter.ts";
import { flatten, placeTree } from "#domain/storage/place-tree.ts";
import type { Queryable } from "../client.ts";
import { listChoicesOfPrints } from "./choices.ts";
import { filesOfPrints } from "./files-of-prints.ts";
import { latestFindings } from "./findings.ts";
import { groupBy } from "./group-by.ts";
import { listPlaces } from "./places.ts";
import { listPrints } from "./prints.ts";
import { recaptureList } from "./recapture.ts";
import { lastSurveys } from "./surveys.ts";

/**
 * What the inventory says of the prints that a filter means, in its order; ALL_PRINTS means every one.
 * @param today YYYY-MM-DD, for the cautions that end with time
 */
export function inventoryRows(db: Queryable, filter: PrintFilter, today: string): InventoryRow[] {
  const prints = listPrints(db, filter).rows;
  const ids = prints.map((print) => print.id);
  const choices = groupBy(listChoicesOfPrints(db, ids), (choice) => choice.printId);
  const recapture = groupBy(recaptureList(db, today, { prints }), (line) => line.printId);
  const files = filesOfPrints(db, ids);
  const findings = latestFindings(db, ids);
  const surveys = lastSurveys(db, ids);
  const paths = new Map(flatten(placeTree(listPlaces(db))).map((place) => [place.id, place.path]));
  return prints.map((print) => {
    return inventoryRow({
      print,
      placePath: print.placeId === null ? [] : (paths.get(print.placeId) ?? []),
      cautions: cautionsFor(circumstancesOf(print, today, findings.get(print.id))).map((caution) => caution.title),
      survey: surveys.get(print.id) ?? null,
      findings: findings.get(print.id) ?? [],
      files: files.get(print.id) ?? [],
      choices: choices.get(print.id) ?? [],
      recapture: recapture.get(print.id) ?? [],
    });
  });
}
