import { Hono, type Context as Request } from "hono";
import type { Purpose } from "#domain/aim/aim.ts";
import { cautionsFor } from "#domain/condition/cautions-for.ts";
import { stopsOf } from "#domain/condition/method-stop.ts";
import { exemptionReason } from "#domain/recapture/work-sheet-input.ts";
import { listPurposes } from "#drizzle/queries/aims.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { exemptionsOfPurpose } from "#drizzle/queries/exemptions.ts";
import { latestFindings } from "#drizzle/queries/findings.ts";
import { countPrints, findPrints } from "#drizzle/queries/prints.ts";
import { type RecaptureTask, recaptureList, recaptureTasks } from "#drizzle/queries/recapture.ts";
import { RecapturePage, type RefusedLine, type ShownRecapture } from "#views/pages/recapture.tsx";
import { askAgain, exemptFromRecapture } from "../actions/exempt-from-recapture.ts";
import { circumstancesOfPrint } from "../circumstances-of-print.ts";
import type { Context } from "../context.ts";
import { waitingForEach } from "../waiting-captures.ts";
import { idIn, readForm, refusalsOf } from "./form.ts";
import { pageAsked } from "./page-asked.ts";

/** A line is as tall as a phone: a page of them is still leafed through in a minute. */
const PER_PAGE = 20;

export function recaptureRoutes(context: Context): Hono {
  const show = (
    c: Request,
    status: 200 | 422,
    asked: { purpose?: string | undefined; page?: string | undefined },
    refused: RefusedLine | null,
  ) => {
    const purposes = listPurposes(context.db);
    const purpose = purposes.find((each) => each.key === asked.purpose) ?? purposes[0];
    const tasks = purpose ? recaptureTasks(context.db, purpose.id) : [];
    const page = pageAsked(asked.page, { perPage: PER_PAGE, total: tasks.length });
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
        printCount: new Set(tasks.map(({ printId }) => printId)).size,
        lines: purpose ? shown(context, purpose, tasks.slice((page - 1) * PER_PAGE, page * PER_PAGE)) : [],
        exemptions: purpose ? exemptionsOfPurpose(context.db, purpose.id) : [],
        refused,
        done: c.req.query("done"),
        page,
        perPage: PER_PAGE,
      }),
      status,
    );
  };

  return new Hono()
    .get("/recapture", (c) => show(c, 200, c.req.query(), null))

    .post("/recapture/good-enough", async (c) => {
      const typed = await readForm(c);
      const { purpose = "", page = "1" } = typed;
      const printId = Number(typed.print);
      const side = typed.side === "back" ? "back" : "front";
      const reason = exemptionReason.safeParse(typed.reason);
      const made = reason.success
        ? exemptFromRecapture(context, { printId, side, purposeKey: purpose, reason: reason.data })
        : { ok: false as const, refusals: refusalsOf(reason.error).map((refusal) => ({ ...refusal, about: "reason" })) };
      if (made.ok) return c.redirect(`/recapture?purpose=${encodeURIComponent(purpose)}&done=good-enough#good-enough`, 303);
      return show(c, 422, { purpose, page }, { printId, side, form: { typed, refusals: made.refusals } });
    })

    .post("/recapture/exemptions/:id{[0-9]+}/ask-again", async (c) => {
      const id = idIn(c);
      const { purpose = "" } = await readForm(c);
      if (id === null || !askAgain(context, { exemptionId: id }).ok) return c.notFound();
      return c.redirect(`/recapture?purpose=${encodeURIComponent(purpose)}&done=asked-again`, 303);
    });
}

/** The lines of one page with what its prints ask for, in the order of the tasks. */
function shown(context: Context, purpose: Purpose, tasks: readonly RecaptureTask[]): ShownRecapture[] {
  const today = context.now().slice(0, 10);
  const ids = [...new Set(tasks.map(({ printId }) => printId))];
  const prints = findPrints(context.db, ids);
  const lines = recaptureList(context.db, today, { purposes: [purpose], prints });
  const findings = latestFindings(context.db, ids);
  const waiting = waitingForEach(
    context,
    prints.map(({ objectNumber }) => objectNumber),
  );
  return tasks.flatMap((task) => {
    const line = lines.find(({ printId, side }) => printId === task.printId && side === task.side);
    const print = prints.find(({ id }) => id === task.printId);
    if (!line || !print) return [];
    const circumstances = circumstancesOfPrint(context.db, print, today, findings.get(print.id));
    const inTray = (waiting.get(line.objectNumber) ?? []).filter(({ side }) => side === line.side);
    return [{ ...line, inTray, cautions: cautionsFor(circumstances), keptFrom: stopsOf(circumstances) }];
  });
}
