import { Hono } from "hono";
import { readCollection } from "#drizzle/queries/collection.ts";
import { findPrint, listBinnedPrints } from "#drizzle/queries/prints.ts";
import { listPutAway } from "#drizzle/queries/put-away.ts";
import { BinPage } from "#views/pages/bin.tsx";
import { binPrint } from "../actions/bin-print.ts";
import { restorePrint } from "../actions/restore-print.ts";
import type { Context } from "../context.ts";
import { idIn } from "./form.ts";

export const binRoutes = (context: Context): Hono =>
  new Hono()
    .get("/bin", (c) =>
      c.html(
        BinPage({
          collectionName: readCollection(context.db).name,
          prints: listBinnedPrints(context.db),
          captures: listPutAway(context.db),
          done: c.req.query("done"),
        }),
      ),
    )

    .post("/prints/:id{[0-9]+}/bin", (c) => {
      const id = idIn(c);
      if (id === null || !findPrint(context.db, id)) return c.notFound();
      binPrint(context, { printId: id });
      return c.redirect("/bin?done=print-binned", 303);
    })

    .post("/bin/:id{[0-9]+}/restore", (c) => {
      const id = idIn(c);
      if (id === null || !findPrint(context.db, id)) return c.notFound();
      restorePrint(context, { printId: id });
      return c.redirect(`/prints/${id}?done=print-restored`, 303);
    });
