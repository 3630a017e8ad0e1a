import { Hono, type Context as Request } from "hono";
import { type SetUp, setUpInput } from "#domain/capture/set-up.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { historyOf } from "#drizzle/queries/events.ts";
import { findSetUp, listSetUps } from "#drizzle/queries/set-ups.ts";
import { SetUpFormPage } from "#views/pages/set-up-form.tsx";
import { SetUpsPage } from "#views/pages/set-ups.tsx";
import { type FormState, NOTHING_TYPED } from "#views/parts/field.tsx";
import { type Difference, differences } from "#views/parts/saved-meanwhile.tsx";
import { SET_UP_LABELS, typedFromSetUp } from "#views/parts/set-up-fields.tsx";
import { createSetUp } from "../actions/create-set-up.ts";
import { editSetUp } from "../actions/edit-set-up.ts";
import type { Context } from "../context.ts";
import { idIn, readForm, refusalsOf } from "./form.ts";

export function setUpRoutes(context: Context): Hono {
  const show = (c: Request, status: 200 | 422, form: FormState) => {
    const collectionName = readCollection(context.db).name;
    return c.html(SetUpsPage({ collectionName, setUps: listSetUps(context.db), form, done: c.req.query("done") }), status);
  };

  const kept = (c: Request): SetUp | null => {
    const id = idIn(c);
    return id === null ? null : findSetUp(context.db, id);
  };

  const showForm = (c: Request, status: 200 | 409 | 422, setUp: SetUp, form: FormState, savedMeanwhile: readonly Difference[] = []) => {
    const { name: collectionName } = readCollection(context.db);
    const history = historyOf(context.db, "set-up", setUp.id);
    return c.html(SetUpFormPage({ collectionName, setUp, form, savedMeanwhile, history }), status);
  };

  return new Hono()
    .get("/set-ups", (c) => show(c, 200, NOTHING_TYPED))

    .post("/set-ups", async (c) => {
      const typed = await readForm(c);
      const read = setUpInput.safeParse(typed);
      if (!read.success) return show(c, 422, { typed, refusals: refusalsOf(read.error) });
      const made = createSetUp(context, read.data);
      if (!made.ok) return show(c, 422, { typed, refusals: made.refusals });
      return c.redirect(`/set-ups?done=set-up-created#set-up-${made.value.id}`, 303);
    })

    .get("/set-ups/:id{[0-9]+}/edit", (c) => {
      const setUp = kept(c);
      return setUp ? showForm(c, 200, setUp, { typed: typedFromSetUp(setUp), refusals: [] }) : c.notFound();
    })

    .post("/set-ups/:id{[0-9]+}", async (c) => {
      const setUp = kept(c);
      if (!setUp) return c.notFound();
      const typed = await readForm(c);
      const read = setUpInput.safeParse(typed);
      if (!read.success) return showForm(c, 422, setUp, { typed, refusals: refusalsOf(read.error) });
      const edited = editSetUp(context, { setUpId: setUp.id, readRevision: Number(typed.revision), input: read.data });
      if (edited.ok) {
        const done = edited.value.changed.length > 0 ? "set-up-saved" : "set-up-unchanged";
        return c.redirect(`/set-ups?done=${done}#set-up-${setUp.id}`, 303);
      }
      if (!edited.refusals.some((refusal) => refusal.about === "revision"))
        return showForm(c, 422, setUp, { typed, refusals: edited.refusals });
      const anew = { ...typed, revision: String(setUp.revision) };
      return showForm(c, 409, setUp, { typed: anew, refusals: edited.refusals }, differences(SET_UP_LABELS, typedFromSetUp(setUp), typed));
    });
}
