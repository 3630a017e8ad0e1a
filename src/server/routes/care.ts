import { Hono } from "hono";
import { readPrintFilter } from "#domain/print/print-filter.ts";
import { flatten, placeTree } from "#domain/storage/place-tree.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { listPlaces } from "#drizzle/queries/places.ts";
import { CarePage } from "#views/pages/care.tsx";
import { careCsv } from "../care/care-csv.ts";
import { careList } from "../care/care-list.ts";
import type { Context } from "../context.ts";
import { CSV_MEDIA_TYPE } from "../csv/write-csv.ts";
import { pageAsked } from "./page-asked.ts";

const PER_PAGE = 50;

export const careRoutes = (context: Context): Hono =>
  new Hono()
    .get("/care", (c) => {
      const { filter } = readPrintFilter(c.req.query());
      const lines = careList(context, filter);
      const page = pageAsked(c.req.query("page"), { perPage: PER_PAGE, total: lines.length });
      return c.html(
        CarePage({
          collectionName: readCollection(context.db).name,
          filter,
          places: flatten(placeTree(listPlaces(context.db))),
          lines: lines.slice((page - 1) * PER_PAGE, page * PER_PAGE),
          total: lines.length,
          page,
          perPage: PER_PAGE,
        }),
      );
    })

    .get("/care.csv", (c) => {
      const { filter } = readPrintFilter(c.req.query());
      c.header("Content-Disposition", `attachment; filename="care-${context.now().slice(0, 10)}.csv"`);
      const spreadsheetSafe = c.req.query("spreadsheet") === "yes";
      return c.body(careCsv(careList(context, filter), { spreadsheetSafe }), 200, { "Content-Type": CSV_MEDIA_TYPE });
    });
