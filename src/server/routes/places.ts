import { Hono, type Context as Request } from "hono";
import { placeInput, placeRenaming } from "#domain/storage/place-input.ts";
import { placeTree } from "#domain/storage/place-tree.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { findPlace, listPlaces } from "#drizzle/queries/places.ts";
import { PlacesPage, type PlacesPageProps } from "#views/pages/places.tsx";
import { createPlace } from "../actions/create-place.ts";
import { renamePlace } from "../actions/rename-place.ts";
import type { Context } from "../context.ts";
import { idIn, readForm, refusalsOf } from "./form.ts";

export function placeRoutes(context: Context): Hono {
  const show = (c: Request, status: 200 | 422, props: Partial<PlacesPageProps>) =>
    c.html(
      PlacesPage({
        collectionName: readCollection(context.db).name,
        tree: placeTree(listPlaces(context.db)),
        form: { typed: {}, refusals: [] },
        ...props,
      }),
      status,
    );

  return new Hono()
    .get("/places", (c) => show(c, 200, { done: c.req.query("done") }))

    .post("/places", async (c) => {
      const typed = await readForm(c);
      const read = placeInput.safeParse(typed);
      if (!read.success) return show(c, 422, { form: { typed, refusals: refusalsOf(read.error) } });
      const made = createPlace(context, read.data);
      if (!made.ok) return show(c, 422, { form: { typed, refusals: made.refusals } });
      return c.redirect("/places?done=place-created", 303);
    })

    .post("/places/:id", async (c) => {
      const id = idIn(c);
      if (id === null || !findPlace(context.db, id)) return c.notFound();
      const typed = await readForm(c);
      const read = placeRenaming.safeParse(typed);
      if (!read.success) return show(c, 422, { renaming: { id, form: { typed, refusals: refusalsOf(read.error) } } });
      const renamed = renamePlace(context, { placeId: id, newName: read.data.newName });
      if (!renamed.ok) return show(c, 422, { renaming: { id, form: { typed, refusals: renamed.refusals } } });
      return c.redirect("/places?done=place-renamed", 303);
    });
}
