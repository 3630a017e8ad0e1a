import { Hono, type Context as Request } from "hono";
import type { Place } from "#domain/storage/place.ts";
import { placeInput } from "#domain/storage/place-input.ts";
import { flatten, placeTree } from "#domain/storage/place-tree.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { historyOf } from "#drizzle/queries/events.ts";
import { contentsOfPlace, findPlace, listPlaces } from "#drizzle/queries/places.ts";
import { PlaceFormPage } from "#views/pages/place-form.tsx";
import { PlacesPage, type PlacesPageProps } from "#views/pages/places.tsx";
import type { FormState } from "#views/parts/field.tsx";
import { PLACE_LABELS, typedFromPlace } from "#views/parts/place-fields.tsx";
import { type Difference, differences } from "#views/parts/saved-meanwhile.tsx";
import { createPlace } from "../actions/create-place.ts";
import { deletePlace, keptIn } from "../actions/delete-place.ts";
import { editPlace } from "../actions/edit-place.ts";
import type { Context } from "../context.ts";
import { idIn, readForm, refusalsOf } from "./form.ts";

export function placeRoutes(context: Context): Hono {
  const show = (c: Request, status: 200 | 422, props: Partial<PlacesPageProps>) =>
    c.html(
      PlacesPage({
        collectionName: readCollection(context.db).name,
        tree: placeTree(listPlaces(context.db)),
        form: { typed: { kind: c.req.query("kind") ?? "", parentId: c.req.query("inside") ?? "" }, refusals: [] },
        ...props,
      }),
      status,
    );

  const kept = (c: Request): Place | null => {
    const id = idIn(c);
    return id === null ? null : findPlace(context.db, id);
  };

  const showForm = (c: Request, status: 200 | 409 | 422, place: Place, form: FormState, savedMeanwhile: readonly Difference[] = []) => {
    const { name: collectionName } = readCollection(context.db);
    const places = flatten(placeTree(listPlaces(context.db)));
    return c.html(
      PlaceFormPage({
        collectionName,
        place,
        places,
        form,
        savedMeanwhile,
        keeps: keptIn(contentsOfPlace(context.db, place.id)),
        history: historyOf(context.db, "place", place.id),
      }),
      status,
    );
  };

  return new Hono()
    .get("/places", (c) => show(c, 200, { done: c.req.query("done") }))

    .post("/places", async (c) => {
      const typed = await readForm(c);
      const read = placeInput.safeParse(typed);
      if (!read.success) return show(c, 422, { form: { typed, refusals: refusalsOf(read.error) } });
      const made = createPlace(context, read.data);
      if (!made.ok) return show(c, 422, { form: { typed, refusals: made.refusals } });
      // the next place is mostly of the same kind, in the same place
      const next = new URLSearchParams({ done: "place-created", kind: read.data.kind, inside: String(read.data.parentId ?? "") });
      return c.redirect(`/places?${next}#new-place`, 303);
    })

    .get("/places/:id{[0-9]+}/edit", (c) => {
      const place = kept(c);
      return place ? showForm(c, 200, place, { typed: typedFromPlace(place), refusals: [] }) : c.notFound();
    })

    .post("/places/:id{[0-9]+}/delete", (c) => {
      const place = kept(c);
      if (!place) return c.notFound();
      const gone = deletePlace(context, { placeId: place.id });
      if (gone.ok) return c.redirect("/places?done=place-deleted", 303);
      return showForm(c, 422, place, { typed: typedFromPlace(place), refusals: gone.refusals });
    })

    .post("/places/:id{[0-9]+}", async (c) => {
      const place = kept(c);
      if (!place) return c.notFound();
      const typed = await readForm(c);
      const read = placeInput.safeParse(typed);
      if (!read.success) return showForm(c, 422, place, { typed, refusals: refusalsOf(read.error) });
      const edited = editPlace(context, { placeId: place.id, readRevision: Number(typed.revision), input: read.data });
      if (edited.ok) {
        const done = edited.value.changed.length > 0 ? "place-saved" : "place-unchanged";
        return c.redirect(`/places?done=${done}#place-${place.id}`, 303);
      }
      if (!edited.refusals.some((refusal) => refusal.about === "revision"))
        return showForm(c, 422, place, { typed, refusals: edited.refusals });
      const form = { typed: { ...typed, revision: String(place.revision) }, refusals: edited.refusals };
      return showForm(c, 409, place, form, differences(PLACE_LABELS, typedFromPlace(place), typed));
    });
}
