import { Hono } from "hono";
import { nextObjectNumber } from "#domain/print/object-number.ts";
import { ALL_PRINTS } from "#domain/print/print-filter.ts";
import { listPrintsChosenByOlderAims } from "#drizzle/queries/candidates.ts";
import { countCloseChoices } from "#drizzle/queries/choices.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { dueLines } from "#drizzle/queries/due.ts";
import { listDamagedOriginals } from "#drizzle/queries/fixity.ts";
import { listMeasuredByOlderVersions } from "#drizzle/queries/older-measures.ts";
import { countCollection, listRecentCaptures } from "#drizzle/queries/overview.ts";
import { listObjectNumbers, listPrints } from "#drizzle/queries/prints.ts";
import { countOpenProposals } from "#drizzle/queries/proposals.ts";
import { listRounds } from "#drizzle/queries/rounds.ts";
import { workProgress } from "#drizzle/queries/work-progress.ts";
import { FirstStepsPage } from "#views/pages/first-steps.tsx";
import { OverviewPage } from "#views/pages/overview.tsx";
import { renewChoices } from "../actions/renew-choices.ts";
import { isThrough } from "../actions/start-round.ts";
import type { Context } from "../context.ts";
import { DEFAULT_NAME } from "../open-collection.ts";

const RECENT = 12;
const MOST_ROUNDS = 3;

export const overviewRoutes = (context: Context): Hono =>
  new Hono()
    .get("/", (c) => {
      const counts = countCollection(context.db);
      const done = c.req.query("done");
      if (counts.captures === 0 && counts.prints <= 1) return c.html(FirstStepsPage({ ...firstSteps(context), done }));
      return c.html(
        OverviewPage({
          collectionName: readCollection(context.db).name,
          counts: { ...counts, damaged: listDamagedOriginals(context.db).length },
          measuredByOlderVersions: listMeasuredByOlderVersions(context.db).length,
          chosenByOlderAims: listPrintsChosenByOlderAims(context.db).length,
          choicesToLookAt: countCloseChoices(context.db) + countOpenProposals(context.db),
          looksDue: dueLines(context.db).filter(({ dueOn }) => dueOn <= context.now().slice(0, 10)).length,
          openRounds: listRounds(context.db)
            .filter((round) => !isThrough(round))
            .slice(0, MOST_ROUNDS),
          work: workProgress(context.db),
          recent: listRecentCaptures(context.db, RECENT),
          done,
        }),
      );
    })

    .post("/masters/renew", async (c) => {
      await renewChoices(context);
      return c.redirect("/?done=choices-renewed", 303);
    });

function firstSteps(context: Context) {
  const { name, objectNumberPattern } = readCollection(context.db);
  return {
    collectionName: name,
    isNamed: name !== DEFAULT_NAME,
    nextNumber: nextObjectNumber(objectNumberPattern, listObjectNumbers(context.db), context.now().slice(0, 10)),
    firstPrint: listPrints(context.db, ALL_PRINTS).rows[0] ?? null,
  };
}
