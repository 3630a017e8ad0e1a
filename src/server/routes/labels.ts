import { Hono } from "hono";
import { cautionsFor } from "#domain/condition/cautions-for.ts";
import { labelMarks } from "#domain/condition/label-marks.ts";
import { stopsOf } from "#domain/condition/method-stop.ts";
import { readPrintFilter } from "#domain/print/print-filter.ts";
import { flatten, placeTree } from "#domain/storage/place-tree.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { latestFindings } from "#drizzle/queries/findings.ts";
import { listPlaces } from "#drizzle/queries/places.ts";
import { listPrints } from "#drizzle/queries/prints.ts";
import { LABEL_SIZES, LabelsPage } from "#views/pages/labels.tsx";
import { circumstancesOfPrint } from "../circumstances-of-print.ts";
import type { Context } from "../context.ts";

/** Labels on one page of the screen: a few sheets of paper. */
const PER_PAGE = 120;

export const labelRoutes = (context: Context): Hono =>
  new Hono().get("/labels", (c) => {
    const { filter, problems } = readPrintFilter(c.req.query());
    const ofPage = { ...filter, perPage: PER_PAGE };
    const { rows, total } = listPrints(context.db, ofPage);
    const size = LABEL_SIZES.find(({ key }) => key === c.req.query("size")) ?? LABEL_SIZES[0];
    const findings = latestFindings(
      context.db,
      rows.map(({ id }) => id),
    );
    const today = context.now().slice(0, 10);
    return c.html(
      LabelsPage({
        collectionName: readCollection(context.db).name,
        filter: ofPage,
        problems,
        places: flatten(placeTree(listPlaces(context.db))),
        size,
        total,
        labels: rows.map((print) => {
          const circumstances = circumstancesOfPrint(context.db, print, today, findings.get(print.id));
          return { print, ...labelMarks(cautionsFor(circumstances), size.mostMarks), keptFrom: stopsOf(circumstances) };
        }),
      }),
    );
  });
