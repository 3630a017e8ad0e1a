import { Hono, type Context as Request } from "hono";
import { setUpInput } from "#domain/capture/set-up.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { listSetUps } from "#drizzle/queries/set-ups.ts";
import { SetUpsPage } from "#views/pages/set-ups.tsx";
import type { FormState } from "#views/parts/field.tsx";
import { createSetUp } from "../actions/create-set-up.ts";
import type { Context } from "../context.ts";
import { readForm, refusalsOf } from "./form.ts";

export function setUpRoutes(context: Context): Hono {
  const show = (c: Request, status: 200 | 422, form: FormState) => {
    const collectionName = readCollection(context.db).name;
    return c.html(SetUpsPage({ collectionName, setUps: listSetUps(context.db), form, done: c.req.query("done") }), status);
  };

  return new Hono()
    .get("/set-ups", (c) => show(c, 200, { typed: {}, refusals: [] }))

    .post("/set-ups", async (c) => {
      const typed = await readForm(c);
      const read = setUpInput.safeParse(typed);
      if (!read.success) return show(c, 422, { typed, refusals: refusalsOf(read.error) });
      const made = createSetUp(context, read.data);
      if (!made.ok) return show(c, 422, { typed, refusals: made.refusals });
      return c.redirect(`/set-ups?done=set-up-created#set-up-${made.value.id}`, 303);
    });
}
