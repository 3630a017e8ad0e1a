import { Hono, type Context as Request } from "hono";
import { frameOf, stands } from "#domain/capture/capture.ts";
import { cornersTyped, newPart, typedFrom, unreadCorners } from "#domain/capture/corner-fields.ts";
import { measuredOutline } from "#domain/measure/kept-outlines.ts";
import type { Quad } from "#domain/measure/picture.ts";
import { type CaptureWithOriginal, findCapture } from "#drizzle/queries/captures.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { findMeasureSet } from "#drizzle/queries/measures.ts";
import { OutlinePage } from "#views/pages/outline.tsx";
import type { FormState } from "#views/parts/field.tsx";
import type { ShownOutline } from "#views/parts/outline-overlay.tsx";
import { setOutline } from "../actions/set-outline.ts";
import type { Context } from "../context.ts";
import { idIn, readForm } from "./form.ts";

/** The outline of one capture, set by a person or given back to measuring. */
export function outlineRoutes(context: Context): Hono {
  const capture = (c: Request): CaptureWithOriginal | null => {
    const id = idIn(c);
    const found = id === null ? null : findCapture(context.db, id);
    return found && stands(found) ? found : null;
  };

  const show = (c: Request, of: CaptureWithOriginal, status: 200 | 422, refused: FormState | null) => {
    const found = measuredOutline(findMeasureSet(context.db, of.id, "alone"));
    const sheet = of.saidOutline ?? found?.sheet ?? newPart(undefined, frameOf(of));
    return c.html(
      OutlinePage({
        collectionName: readCollection(context.db).name,
        capture: of,
        outline: drawnAs((refused && cornersTyped(refused.typed, 1)) ?? sheet),
        isFound: found !== null && found.isSaid !== true,
        isSaid: of.saidOutline !== null,
        form: refused ?? { typed: typedFrom(1, sheet), refusals: [] },
      }),
      status,
    );
  };

  return new Hono()
    .get("/captures/:id{[0-9]+}/outline", (c) => {
      const found = capture(c);
      return found ? show(c, found, 200, null) : c.notFound();
    })

    .post("/captures/:id{[0-9]+}/outline", async (c) => {
      const found = capture(c);
      if (!found) return c.notFound();
      const typed = await readForm(c);
      const corners = cornersTyped(typed, 1);
      if (!corners) return show(c, found, 422, { typed, refusals: [unreadCorners(typed, 1)] });
      const set = setOutline(context, { captureId: found.id, corners });
      return set.ok ? c.redirect(`/captures/${found.id}?done=outline-set`, 303) : show(c, found, 422, { typed, refusals: set.refusals });
    })

    .post("/captures/:id{[0-9]+}/outline/reset", (c) => {
      const found = capture(c);
      if (!found) return c.notFound();
      setOutline(context, { captureId: found.id, corners: null });
      return c.redirect(`/captures/${found.id}?done=outline-given-back`, 303);
    });
}

/** A sheet by its corners alone, all of its sides seen. */
export const drawnAs = (sheet: Quad): ShownOutline => ({
  sheet,
  image: null,
  sides: { top: "seen", right: "seen", bottom: "seen", left: "seen" },
});
