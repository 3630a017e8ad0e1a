import { Hono, type Context as Request } from "hono";
import { cornersTyped, newPart, typedFrom, unreadCorners } from "#domain/capture/corner-fields.ts";
import { targetName } from "#domain/target/layout.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { findSetUp } from "#drizzle/queries/set-ups.ts";
import { findTargetCheck, type KeptCheck } from "#drizzle/queries/target-checks.ts";
import { CheckOutlinePage } from "#views/pages/check-outline.tsx";
import type { FormState } from "#views/parts/field.tsx";
import { outlineCheck } from "../actions/check-target.ts";
import type { Context } from "../context.ts";
import { derivedOriginal } from "../images/derived-picture.ts";
import { answerCloseUp } from "./close-up.ts";
import { idIn, readForm } from "./form.ts";
import { drawnAs } from "./outlines.ts";

/** The corners of a target in the picture of a check, set by a person. An even sheet has none. */
export function checkOutlineRoutes(context: Context): Hono {
  const kept = (c: Request): KeptCheck | null => {
    const id = idIn(c);
    const check = id === null ? null : findTargetCheck(context.db, id);
    return check?.layout ? check : null;
  };

  const show = (c: Request, check: KeptCheck, status: 200 | 422, refused: FormState | null) => {
    const { id, setUpId, layout, original, saidOutline, read } = check;
    const sheet = saidOutline ?? newPart(undefined, original);
    return c.html(
      CheckOutlinePage({
        collectionName: readCollection(context.db).name,
        check: { id, setUpId, targetName: targetName(layout), isRead: read !== null },
        setUpName: findSetUp(context.db, setUpId)?.name ?? "its set-up",
        picture: { fileName: original.originalName, widthPx: original.widthPx, heightPx: original.heightPx },
        outline: drawnAs((refused && cornersTyped(refused.typed, 1)) ?? sheet),
        isSaid: saidOutline !== null,
        form: refused ?? { typed: typedFrom(1, sheet), refusals: [] },
      }),
      status,
    );
  };

  return new Hono()
    .get("/target-checks/:id{[0-9]+}/outline", (c) => {
      const check = kept(c);
      return check ? show(c, check, 200, null) : c.notFound();
    })

    .post("/target-checks/:id{[0-9]+}/outline", async (c) => {
      const check = kept(c);
      if (!check) return c.notFound();
      const typed = await readForm(c);
      const corners = cornersTyped(typed, 1);
      if (!corners) return show(c, check, 422, { typed, refusals: [unreadCorners(typed, 1)] });
      const read = await outlineCheck(context, check.id, corners);
      return read.ok
        ? c.redirect(`/set-ups/${check.setUpId}/checks?done=target-outlined`, 303)
        : show(c, check, 422, { typed, refusals: read.refusals });
    })

    .get("/target-checks/:id{[0-9]+}/view.jpg", async (c) => {
      const check = kept(c);
      const bytes = check && (await derivedOriginal(context, check.original, "view.jpg"));
      c.header("Cache-Control", "private, no-cache");
      return bytes ? c.body(bytes, 200, { "Content-Type": "image/jpeg" }) : c.notFound();
    })

    .get("/target-checks/:id{[0-9]+}/close-up.jpg", (c) => {
      const check = kept(c);
      return check ? answerCloseUp(context, c, check.original, null) : c.notFound();
    });
}
