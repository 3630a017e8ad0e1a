import { Hono, type Context as Request } from "hono";
import { collectionInput } from "#domain/collection/collection-input.ts";
import { nextObjectNumber } from "#domain/print/object-number.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { listObjectNumbers } from "#drizzle/queries/prints.ts";
import { CollectionPage } from "#views/pages/collection.tsx";
import type { FormState } from "#views/parts/field.tsx";
import { editCollection } from "../actions/edit-collection.ts";
import type { Context } from "../context.ts";
import { readForm, refusalsOf } from "./form.ts";

export function collectionRoutes(context: Context): Hono {
  const show = (c: Request, status: 200 | 422, form?: FormState) => {
    const { name, objectNumberPattern } = readCollection(context.db);
    return c.html(
      CollectionPage({
        collectionName: name,
        form: form ?? { typed: { name, objectNumberPattern }, refusals: [] },
        nextNumber: nextObjectNumber(objectNumberPattern, listObjectNumbers(context.db), context.now().slice(0, 10)),
        done: c.req.query("done"),
      }),
      status,
    );
  };

  return new Hono()
    .get("/collection", (c) => show(c, 200))

    .post("/collection", async (c) => {
      const typed = await readForm(c);
      const read = collectionInput.safeParse(typed);
      if (!read.success) return show(c, 422, { typed, refusals: refusalsOf(read.error) });
      editCollection(context, read.data);
      return c.redirect("/collection?done=collection-saved", 303);
    });
}
