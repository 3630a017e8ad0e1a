import { Hono, type Context as Request } from "hono";
import { SIDES } from "#domain/capture/capture.ts";
import type { Refusal } from "#domain/outcome.ts";
import { type CaptureWithOriginal, findCapture, listTray } from "#drizzle/queries/captures.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { findMeasureSet } from "#drizzle/queries/measures.ts";
import { listObjectNumbers } from "#drizzle/queries/prints.ts";
import { measuringOfCaptures, workProgress } from "#drizzle/queries/work.ts";
import { TrayPage } from "#views/pages/tray.tsx";
import type { FormState } from "#views/parts/field.tsx";
import { assignCapture } from "../actions/assign-capture.ts";
import { divideBed } from "../actions/divide-bed.ts";
import type { Context } from "../context.ts";
import { idIn, readForm } from "./form.ts";
import { measuringInWords } from "./measuring-in-words.ts";
import { namedPrint } from "./named-print.ts";
import { shownOutlines } from "./shown-outlines.ts";

export function trayRoutes(context: Context): Hono {
  /** Only a capture in the tray is sorted here; others are corrected on their own page. */
  const waiting = (c: Request): CaptureWithOriginal | null => {
    const id = idIn(c);
    const found = id === null ? null : findCapture(context.db, id);
    return found && found.printId === null && !found.divided ? found : null;
  };

  const show = (c: Request, status: 200 | 422, refused?: { captureId: number; form: FormState }) => {
    const captures = listTray(context.db);
    const measuring = measuringOfCaptures(
      context.db,
      captures.map((capture) => capture.id),
    );
    return c.html(
      TrayPage({
        collectionName: readCollection(context.db).name,
        items: captures.map((capture) => ({
          capture,
          outlines: outlinesOf(context, capture.id),
          notMeasured: measuringInWords(measuring.get(capture.id)),
          form: refused?.captureId === capture.id ? refused.form : { typed: { side: capture.side }, refusals: [] },
        })),
        objectNumbers: listObjectNumbers(context.db),
        work: workProgress(context.db),
        done: c.req.query("done"),
      }),
      status,
    );
  };

  return new Hono()
    .get("/tray", (c) => show(c, 200))

    .post("/captures/:id{[0-9]+}/print", async (c) => {
      const capture = waiting(c);
      if (!capture) return c.redirect("/tray?done=already-sorted", 303);
      const typed = await readForm(c);
      const refused = (refusals: readonly Refusal[]) => show(c, 422, { captureId: capture.id, form: { typed, refusals } });
      const print = namedPrint(context, typed.print ?? "");
      if (!print.ok) return refused(print.refusals);
      if (print.value === null) return refused([NO_NUMBER]);
      const side = SIDES.find((each) => each === typed.side);
      const assigned = assignCapture(context, { captureId: capture.id, printId: print.value, side });
      return assigned.ok ? c.redirect("/tray?done=capture-assigned", 303) : refused(assigned.refusals);
    })

    .post("/captures/:id{[0-9]+}/divide", async (c) => {
      const capture = waiting(c);
      if (!capture) return c.redirect("/tray?done=already-sorted", 303);
      const typed = await readForm(c);
      const refused = (refusals: readonly Refusal[]) => show(c, 422, { captureId: capture.id, form: { typed, refusals } });
      const named = outlinesOf(context, capture.id).flatMap((_, outline) => {
        if (typed[`leave${outline + 1}`] !== undefined) return [];
        const field = `part${outline + 1}`;
        return [{ outline, print: namedPrint(context, typed[field] ?? "", field) }];
      });
      const refusals = named.flatMap(({ print }) => (print.ok ? [] : print.refusals));
      if (refusals.length > 0) return refused(refusals);
      const parts = named.map(({ outline, print }) => ({ outline, printId: print.ok ? print.value : null }));
      const divided = divideBed(context, { captureId: capture.id, parts });
      return divided.ok ? c.redirect("/tray?done=bed-divided", 303) : refused(divided.refusals);
    });
}

const outlinesOf = (context: Context, captureId: number) => shownOutlines(findMeasureSet(context.db, captureId, "alone"));

const NO_NUMBER: Refusal = { about: "print", happened: "No number was given.", remedy: "Write the object number of the print it shows." };
