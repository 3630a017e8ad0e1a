import { Hono } from "hono";
import { readCollection } from "#drizzle/queries/collection.ts";
import { listFailedWork, workProgress } from "#drizzle/queries/work-progress.ts";
import { WorkPage } from "#views/pages/work.tsx";
import { cancelWork } from "../actions/cancel-work.ts";
import { measureOlderAgain } from "../actions/measure-older-again.ts";
import { resumeWork } from "../actions/resume-work.ts";
import { retryWork } from "../actions/retry-work.ts";
import type { Context } from "../context.ts";

export const workRoutes = (context: Context): Hono =>
  new Hono()
    .get("/work", (c) => {
      c.header("Cache-Control", "no-store");
      return c.html(
        WorkPage({
          collectionName: readCollection(context.db).name,
          counts: workProgress(context.db),
          failed: listFailedWork(context.db),
          // a part that had asked again and again: what it waited for is there when nothing is open
          isAsked: c.req.header("HX-Request") !== undefined,
          done: c.req.query("done"),
        }),
      );
    })

    .post("/work/cancel", (c) => {
      cancelWork(context);
      return c.redirect("/work?done=work-cancelled", 303);
    })

    .post("/work/measure-older", (c) => {
      const asked = measureOlderAgain(context);
      return c.redirect(`/?done=${asked.ok && asked.value.asked > 0 ? "older-asked" : "older-none"}`, 303);
    })

    .post("/work/retry", (c) => {
      retryWork(context);
      return c.redirect("/work?done=work-retried", 303);
    })

    .post("/work/resume", (c) => {
      resumeWork(context);
      return c.redirect("/work?done=work-resumed", 303);
    });
