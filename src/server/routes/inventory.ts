import { Hono } from "hono";
import { readPrintFilter } from "#domain/print/print-filter.ts";
import { flatten, placeTree } from "#domain/storage/place-tree.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { inventoryRows } from "#drizzle/queries/inventory.ts";
import { listPlaces } from "#drizzle/queries/places.ts";
import { listPrints } from "#drizzle/queries/prints.ts";
import { InventoryPage } from "#views/pages/inventory.tsx";
import type { Context } from "../context.ts";
import { CSV_MEDIA_TYPE } from "../csv/write-csv.ts";
import { inventoryCsv } from "../inventory/inventory-csv.ts";
import { pageAsked } from "./page-asked.ts";

const PER_PAGE = 20;

export const inventoryRoutes = (context: Context): Hono =>
  new Hono()
    .get("/inventory", (c) => {
      const { filter, problems } = readPrintFilter(c.req.query());
      const { total } = listPrints(context.db, { ...filter, page: 1, perPage: 1 });
      const page = pageAsked(c.req.query("page"), { perPage: PER_PAGE, total });
      return c.html(
        InventoryPage({
          collectionName: readCollection(context.db).name,
          filter,
          problems,
          places: flatten(placeTree(listPlaces(context.db))),
          rows: inventoryRows(context.db, { ...filter, page, perPage: PER_PAGE }, context.now().slice(0, 10)),
          total,
          page,
          perPage: PER_PAGE,
        }),
      );
    })

    .get("/inventory.csv", (c) => {
      const { filter } = readPrintFilter(c.req.query());
      const today = context.now().slice(0, 10);
      const rows = inventoryRows(context.db, { ...filter, page: 1, perPage: null }, today);
      c.header("Content-Disposition", `attachment; filename="inventory-${today}.csv"`);
      return c.body(inventoryCsv(rows, { spreadsheetSafe: c.req.query("spreadsheet") === "yes" }), 200, {
        "Content-Type": CSV_MEDIA_TYPE,
      });
    });
