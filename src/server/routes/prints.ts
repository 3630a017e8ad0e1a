import { Hono, type Context as Request } from "hono";
import type { ZodError } from "zod";
import { SIDES, stands } from "#domain/capture/capture.ts";
import { numberInName } from "#domain/capture/number-in-name.ts";
import type { Refusal } from "#domain/outcome.ts";
import { nextObjectNumber } from "#domain/print/object-number.ts";
import type { Print } from "#domain/print/print.ts";
import { readPrintFilter } from "#domain/print/print-filter.ts";
import { printInput } from "#domain/print/schema.ts";
import { flatten, type PlaceNode, placeTree } from "#domain/storage/place-tree.ts";
import { type CaptureWithOriginal, findCapture } from "#drizzle/queries/captures.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { listPlaces } from "#drizzle/queries/places.ts";
import { listObjectNumbers, listPrints } from "#drizzle/queries/prints.ts";
import { FormatsPage } from "#views/pages/formats.tsx";
import { PrintFormPage, type PrintFormPageProps } from "#views/pages/print-form.tsx";
import { PrintsPage } from "#views/pages/prints.tsx";
import type { Typed } from "#views/parts/field.tsx";
import { PRINT_LABELS } from "#views/parts/print-fields.tsx";
import { typedFromPrint } from "#views/parts/print-typed.ts";
import { printsAddress } from "#views/parts/prints-address.ts";
import { differences } from "#views/parts/saved-meanwhile.tsx";
import { assignCapture } from "../actions/assign-capture.ts";
import { createPrint } from "../actions/create-print.ts";
import { editPrint } from "../actions/edit-print.ts";
import { refusalsOfNumber } from "../actions/refusals-of-record.ts";
import type { Context } from "../context.ts";
import { sideShown } from "../waiting-captures.ts";
import { readForm, refusalsOf } from "./form.ts";
import { keptPrintIn } from "./kept-print.ts";

export function printRoutes(context: Context): Hono {
  const places = (): PlaceNode[] => flatten(placeTree(listPlaces(context.db)));
  const showForm = (
    c: Request,
    status: 200 | 409 | 422,
    props: Pick<PrintFormPageProps, "form" | "capture" | "savedMeanwhile"> & { print: Print | null },
  ) =>
    c.html(
      PrintFormPage({
        collectionName: readCollection(context.db).name,
        places: places(),
        savedLast: props.print ? String(props.print.revision) : String(listObjectNumbers(context.db).length),
        isAnswer: status !== 200,
        ...props,
      }),
      status,
    );
  /** The capture that a new print is entered for. */
  const waitingCapture = (id: string | undefined): CaptureWithOriginal | null => {
    const found = id !== undefined && /^\d{1,15}$/.test(id) ? findCapture(context.db, Number(id)) : null;
    return found && found.printId === null && stands(found) ? found : null;
  };
  const keptPrint = (c: Request) => keptPrintIn(context, c);

  /** A number that is taken is told with the other mistakes, not after they are mended. */
  const allRefusals = (typed: Typed, error: ZodError, ownId: number | null): Refusal[] => [
    ...refusalsOfNumber(context.db, (typed.objectNumber ?? "").normalize("NFC").trim(), ownId),
    ...refusalsOf(error),
  ];

  return new Hono()
    .get("/prints", (c) => {
      const { filter, problems } = readPrintFilter(c.req.query());
      const view = c.req.query("view") === "sheet" ? "sheet" : "table";
      const { rows, total } = listPrints(context.db, filter);
      const all = places();
      const paths = new Map(all.map((place) => [place.id, place.path]));
      c.header("HX-Replace-Url", printsAddress(filter, view));
      return c.html(
        PrintsPage({
          collectionName: readCollection(context.db).name,
          filter,
          problems,
          view,
          rows: rows.map((print) => ({ ...print, placePath: (print.placeId === null ? undefined : paths.get(print.placeId)) ?? [] })),
          total,
          places: all,
          done: c.req.query("done"),
        }),
      );
    })

    .get("/prints/new", (c) => {
      const { objectNumberPattern } = readCollection(context.db);
      const numbers = listObjectNumbers(context.db);
      const capture = waitingCapture(c.req.query("capture"));
      const read = capture && numberInName(capture.original.originalName, numbers, objectNumberPattern);
      const asked = c.req.query("objectNumber")?.trim().slice(0, 100) || (read !== null && !numbers.includes(read) ? read : null);
      const objectNumber = asked ?? nextObjectNumber(objectNumberPattern, numbers, context.now().slice(0, 10));
      const typed = { objectNumber, ...(capture && { capture: String(capture.id), side: sideShown(capture, read) }) };
      return showForm(c, 200, { form: { typed, refusals: [] }, print: null, capture });
    })

    .post("/prints", async (c) => {
      const typed = await readForm(c);
      const read = printInput.safeParse(typed);
      const capture = waitingCapture(typed.capture);
      if (!read.success) return showForm(c, 422, { form: { typed, refusals: allRefusals(typed, read.error, null) }, print: null, capture });
      const made = createPrint(context, read.data);
      if (!made.ok) return showForm(c, 422, { form: { typed, refusals: made.refusals }, print: null, capture });
      const { printId } = made.value;
      if (!typed.capture) return c.redirect(`/prints/${printId}?done=print-created`, 303);
      const side = SIDES.find((each) => each === typed.side);
      const assigned = capture !== null && assignCapture(context, { captureId: capture.id, printId, side }).ok;
      return c.redirect(`/prints/${printId}?done=${assigned ? "print-created-with-capture" : "print-created-alone"}`, 303);
    })

    .get("/prints/:id{[0-9]+}/edit", (c) => {
      const print = keptPrint(c);
      return print ? showForm(c, 200, { form: { typed: typedFromPrint(print), refusals: [] }, print }) : c.notFound();
    })

    .post("/prints/:id{[0-9]+}", async (c) => {
      const print = keptPrint(c);
      if (!print) return c.notFound();
      const typed = await readForm(c);
      const read = printInput.safeParse(typed);
      if (!read.success) return showForm(c, 422, { form: { typed, refusals: allRefusals(typed, read.error, print.id) }, print });
      const edited = editPrint(context, { printId: print.id, readRevision: Number(typed.revision), input: read.data });
      if (edited.ok)
        return c.redirect(`/prints/${print.id}?done=${edited.value.changed.length > 0 ? "print-saved" : "print-unchanged"}`, 303);
      const isSavedMeanwhile = edited.refusals.some((refusal) => refusal.about === "revision");
      return showForm(c, isSavedMeanwhile ? 409 : 422, {
        form: { typed: { ...typed, revision: String(print.revision) }, refusals: edited.refusals },
        print,
        savedMeanwhile: isSavedMeanwhile ? differences(PRINT_LABELS, typedFromPrint(print), typed) : [],
      });
    })

    .get("/formats", (c) =>
      c.html(FormatsPage({ collectionName: readCollection(context.db).name, formatId: c.req.query("formatId") ?? "" })),
    );
}
