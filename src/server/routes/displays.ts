import { Hono, type Context as Request } from "hono";
import type { Print } from "#domain/print/print.ts";
import { displayInput } from "#domain/storage/display.ts";
import { lightBudgetOf, lightDose } from "#domain/storage/light-budget.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { displayedPrints, displaysOfPrint } from "#drizzle/queries/displays.ts";
import { DisplaysPage } from "#views/pages/displays.tsx";
import { PrintDisplaysPage } from "#views/pages/print-displays.tsx";
import type { FormState } from "#views/parts/field.tsx";
import { endDisplay, logDisplay, takeBackDisplay } from "../actions/log-display.ts";
import type { Context } from "../context.ts";
import { readForm, refusalsOf } from "./form.ts";
import { keptPrintIn } from "./kept-print.ts";

export function displayRoutes(context: Context): Hono {
  const keptPrint = (c: Request) => keptPrintIn(context, c);
  const today = () => context.now().slice(0, 10);

  const show = (c: Request, print: Print, status: 200 | 422, form: FormState) => {
    const displays = displaysOfPrint(context.db, print.id);
    const budget = lightBudgetOf(print.processId);
    return c.html(
      PrintDisplaysPage({
        collectionName: readCollection(context.db).name,
        print,
        displays,
        budget,
        dose: lightDose(displays, budget, today()),
        today: today(),
        form,
        done: c.req.query("done"),
      }),
      status,
    );
  };

  return new Hono()
    .get("/displays", (c) => {
      const prints = displayedPrints(context.db).map((print) => {
        const budget = lightBudgetOf(print.processId);
        return { ...print, budget, dose: lightDose(print.displays, budget, today()) };
      });
      const share = (print: (typeof prints)[number]) => print.dose.shareOfYear ?? Number.POSITIVE_INFINITY;
      return c.html(
        DisplaysPage({
          collectionName: readCollection(context.db).name,
          prints: prints.toSorted((a, b) => share(b) - share(a)),
        }),
      );
    })

    .get("/prints/:id{[0-9]+}/displays", (c) => {
      const print = keptPrint(c);
      return print ? show(c, print, 200, { typed: { startsOn: today() }, refusals: [] }) : c.notFound();
    })

    .post("/prints/:id{[0-9]+}/displays", async (c) => {
      const print = keptPrint(c);
      if (!print) return c.notFound();
      const typed = await readForm(c);
      const read = displayInput.safeParse(typed);
      if (!read.success) return show(c, print, 422, { typed, refusals: refusalsOf(read.error) });
      const made = logDisplay(context, { printId: print.id, input: read.data });
      if (!made.ok) return show(c, print, 422, { typed, refusals: made.refusals });
      return c.redirect(`/prints/${print.id}/displays?done=display-logged`, 303);
    })

    .post("/prints/:id{[0-9]+}/displays/:display{[0-9]+}/:verb{end|take-back}", (c) => {
      const print = keptPrint(c);
      const displayId = Number(c.req.param("display"));
      if (!print || !displaysOfPrint(context.db, print.id).some(({ id }) => id === displayId)) return c.notFound();
      const isEnd = c.req.param("verb") === "end";
      const made = isEnd ? endDisplay(context, { displayId, endsOn: today() }) : takeBackDisplay(context, { displayId });
      if (!made.ok) return show(c, print, 422, { typed: {}, refusals: made.refusals });
      return c.redirect(`/prints/${print.id}/displays?done=${isEnd ? "display-ended" : "display-taken-back"}`, 303);
    });
}
