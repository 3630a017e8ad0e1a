import { Hono } from "hono";
import type { Purpose } from "#domain/aim/aim.ts";
import { cautionsFor, circumstancesOf } from "#domain/condition/cautions-for.ts";
import { stopsOf } from "#domain/condition/method-stop.ts";
import { listPurposes } from "#drizzle/queries/aims.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { latestFindings } from "#drizzle/queries/findings.ts";
import { countPrints, findPrint } from "#drizzle/queries/prints.ts";
import { type RecaptureTask, recaptureList, recaptureTasks } from "#drizzle/queries/recapture.ts";
import { RecapturePage, type ShownRecapture } from "#views/pages/recapture.tsx";
import type { Context } from "../context.ts";
import { pageAsked } from "./page-asked.ts";

const PER_PAGE = 50;

export const recaptureRoutes = (context: Context): Hono =>
  new Hono().get("/recapture", (c) => {
    const purposes = listPurposes(context.db);
    const purpose = purposes.find((each) => each.key === c.req.query("purpose")) ?? purposes[0];
    const tasks = purpose ? recaptureTasks(context.db, purpose.id) : [];
    const page = pageAsked(c.req.query("page"), { perPage: PER_PAGE, total: tasks.length });
    return c.html(
      RecapturePage({
        collectionName: readCollection(context.db).name,
        isEmptyCollection: countPrints(context.db) === 0,
        purposes,
        purposeKey: purpose?.key ?? "",
        counts: {
          "no-capture": tasks.filter(({ why }) => why === "no-capture").length,
          "falls-short": tasks.filter(({ why }) => why === "falls-short").length,
        },
        lines: purpose ? shown(context, purpose, tasks.slice((page - 1) * PER_PAGE, page * PER_PAGE)) : [],
        page,
        perPage: PER_PAGE,
      }),
    );
  });

/** The lines of one page with what its prints ask for, in the order of the tasks. */
function shown(context: Context, purpose: Purpose, tasks: readonly RecaptureTask[]): ShownRecapture[] {
  const today = context.now().slice(0, 10);
  const ids = [...new Set(tasks.map(({ printId }) => printId))];
  const prints = ids.flatMap((id) => findPrint(context.db, id) ?? []);
  const lines = recaptureList(context.db, today, { purposes: [purpose], prints });
  const findings = latestFindings(context.db, ids);
  return tasks.flatMap((task) => {
    const line = lines.find(({ printId, side }) => printId === task.printId && side === task.side);
    const print = prints.find(({ id }) => id === task.printId);
    if (!line || !print) return [];
    const circumstances = circumstancesOf(print, today, findings.get(print.id));
    return [{ ...line, cautions: cautionsFor(circumstances), keptFrom: stopsOf(circumstances) }];
  });
}
