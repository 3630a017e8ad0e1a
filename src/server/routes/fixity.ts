import { Hono } from "hono";
import { listOriginals } from "#drizzle/queries/captures.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { latestFixityRun, listDamagedOriginals } from "#drizzle/queries/fixity.ts";
import { FixityPage } from "#views/pages/fixity.tsx";
import type { Context } from "../context.ts";
import { fixityRunner } from "../work/fixity-runner.ts";

export function fixityRoutes(context: Context): Hono {
  const runner = fixityRunner(context);
  return new Hono()
    .get("/fixity", (c) => {
      c.header("Cache-Control", "no-store");
      return c.html(
        FixityPage({
          collectionName: readCollection(context.db).name,
          originals: listOriginals(context.db).length,
          run: latestFixityRun(context.db),
          isRunning: runner.isRunning(),
          damaged: listDamagedOriginals(context.db),
        }),
      );
    })

    .post("/fixity", (c) => {
      runner.start();
      return c.redirect("/fixity", 303);
    })

    .post("/fixity/go-on", (c) => {
      const run = latestFixityRun(context.db);
      runner.start(run?.endedAt === null ? run.id : undefined);
      return c.redirect("/fixity", 303);
    })

    .post("/fixity/stop", (c) => {
      runner.stop();
      return c.redirect("/fixity", 303);
    });
}
