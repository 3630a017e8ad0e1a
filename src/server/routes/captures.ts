import { Hono, type Context as Request } from "hono";
import { purposeInSentence } from "#domain/aim/aim.ts";
import { frameOf } from "#domain/capture/capture.ts";
import { putAwayInput } from "#domain/capture/put-away.ts";
import { captureInput } from "#domain/capture/schema.ts";
import { foundOutlines, measuredOutline } from "#domain/measure/kept-outlines.ts";
import type { Refusal } from "#domain/outcome.ts";
import { type CaptureWithOriginal, findCapture } from "#drizzle/queries/captures.ts";
import { listChoicesOfPrint } from "#drizzle/queries/choices.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { historyOf } from "#drizzle/queries/events.ts";
import { fixityOfOriginal } from "#drizzle/queries/fixity.ts";
import { findMeasureSet, readingsOfCaptures } from "#drizzle/queries/measures.ts";
import { findPrint, listObjectNumbers } from "#drizzle/queries/prints.ts";
import { putAwayOf } from "#drizzle/queries/put-away.ts";
import { findSetUp, listSetUps } from "#drizzle/queries/set-ups.ts";
import type { TargetCheck } from "#drizzle/queries/target-checks.ts";
import { measuringOfCaptures, workProgress } from "#drizzle/queries/work-progress.ts";
import { CapturePage } from "#views/pages/capture.tsx";
import { type FormState, NOTHING_TYPED } from "#views/parts/field.tsx";
import { assignCapture } from "../actions/assign-capture.ts";
import { measureAgain } from "../actions/measure-again.ts";
import { putAwayCapture, takeBackCapture } from "../actions/put-away-capture.ts";
import { type StoppedPrint, stopOfPrint } from "../actions/stop-method.ts";
import type { Context } from "../context.ts";
import { sheetOfCapture } from "../images/sheet-of-capture.ts";
import { sizeOfWhole } from "../images/whole-sheet.ts";
import { shownOverlays } from "../overlays/shown-overlays.ts";
import { checkOfCapture } from "../target/check-of-capture.ts";
import { areasOf } from "../work/areas-file.ts";
import { idIn, readForm, refusalsOf } from "./form.ts";
import { measuringInWords } from "./measuring-in-words.ts";
import { namedPrint } from "./named-print.ts";

export function captureRoutes(context: Context): Hono {
  const capture = (c: Request): CaptureWithOriginal | null => {
    const id = idIn(c);
    return id === null ? null : findCapture(context.db, id);
  };

  const show = async (
    c: Request,
    found: CaptureWithOriginal,
    status: 200 | 422,
    { form, stop, putAwayForm }: { form?: FormState; stop?: StoppedPrint | null; putAwayForm?: FormState } = {},
  ) => {
    const readings = readingsOfCaptures(context.db, [found.id]).get(found.id) ?? [];
    const basis = findMeasureSet(context.db, found.id, "alone");
    const print = found.printId === null ? null : findPrint(context.db, found.printId);
    const choices = found.printId === null ? [] : listChoicesOfPrint(context.db, found.printId);
    return c.html(
      CapturePage({
        collectionName: readCollection(context.db).name,
        capture: found,
        print,
        setUpName: found.setUpId === null ? null : (findSetUp(context.db, found.setUpId)?.name ?? null),
        masterFor: choices.filter((choice) => choice.captureId === found.id).map((choice) => purposeInSentence(choice.purpose)),
        outlines: foundOutlines(basis),
        straightened: straightenedSizes(found, foundOutlines(basis).length),
        overlays: shownOverlays({
          frame: frameOf(found),
          outline: measuredOutline(basis),
          readings,
          areas: await areasOf(context.folder, found.id, readings),
        }),
        readings,
        check: shownCheck(checkOfCapture(context, found)),
        fixity: fixityOfOriginal(context.db, found.originalId, 1)[0] ?? null,
        notMeasured: measuringInWords(measuringOfCaptures(context.db, [found.id]).get(found.id)),
        work: workProgress(context.db),
        overruled: historyOf(context.db, "capture", found.id).filter(({ verb }) => verb === "caution overruled"),
        stop: stop ?? null,
        putAway: putAwayOf(context.db, found.id),
        putAwayForm: putAwayForm ?? NOTHING_TYPED,
        form: form ?? { typed: typedOf(found, print?.objectNumber ?? ""), refusals: [] },
        setUps: listSetUps(context.db),
        objectNumbers: listObjectNumbers(context.db),
        done: c.req.query("done"),
      }),
      status,
    );
  };

  /** Of a bed, each part is shown where the parts are confirmed. */
  const straightenedSizes = (found: CaptureWithOriginal, sheets: number) => {
    const shown = found.divided || (sheets > 1 && !found.saidOutline) ? null : sheetOfCapture(context, found, 1);
    return shown && { ...shown.size, whole: sizeOfWhole(shown) };
  };

  return new Hono()
    .get("/captures/:id{[0-9]+}", (c) => {
      const found = capture(c);
      return found ? show(c, found, 200) : c.notFound();
    })

    .post("/captures/:id{[0-9]+}", async (c) => {
      const found = capture(c);
      if (!found) return c.notFound();
      const typed = await readForm(c);
      const refused = (refusals: readonly Refusal[]) => show(c, found, 422, { form: { typed, refusals } });
      const read = captureInput.safeParse({
        side: typed.side,
        method: typed.method,
        setUpId: typed.setUp,
        saidDay: typed.saidDay,
        despite: typed.despite,
      });
      const print = namedPrint(context, typed.print ?? "");
      if (!read.success) return refused([...(print.ok ? [] : print.refusals), ...refusalsOf(read.error).map(aboutField)]);
      if (!print.ok) return refused(print.refusals);
      const setUp = read.data.setUpId === undefined ? null : findSetUp(context.db, read.data.setUpId);
      const method = read.data.method ?? setUp?.method ?? null;
      const assigned = assignCapture(context, {
        captureId: found.id,
        printId: print.value,
        side: read.data.side,
        method,
        setUpId: setUp?.id ?? null,
        saidDay: read.data.saidDay ?? null,
        despite: read.data.despite,
      });
      if (assigned.ok) return c.redirect(`/captures/${found.id}?done=capture-saved`, 303);
      const isStopped = assigned.refusals.some(({ about }) => about === "despite") && print.value !== null && method !== null;
      if (!isStopped) return refused(assigned.refusals.map(aboutField));
      return show(c, found, 422, {
        form: { typed, refusals: [] },
        stop: stopOfPrint(context.db, context.now(), print.value, { method, setUpId: setUp?.id }),
      });
    })

    .post("/captures/:id{[0-9]+}/put-away", async (c) => {
      const found = capture(c);
      if (!found) return c.notFound();
      const typed = await readForm(c);
      const refused = (refusals: readonly Refusal[]) => show(c, found, 422, { putAwayForm: { typed, refusals } });
      const read = putAwayInput.safeParse(typed);
      if (!read.success) return refused(refusalsOf(read.error));
      const away = putAwayCapture(context, { captureId: found.id, reason: read.data.reason });
      return away.ok ? c.redirect(`/captures/${found.id}?done=capture-put-away`, 303) : refused(away.refusals);
    })

    .post("/captures/:id{[0-9]+}/take-back", (c) => {
      const found = capture(c);
      if (!found) return c.notFound();
      takeBackCapture(context, { captureId: found.id });
      return c.redirect(`/captures/${found.id}?done=capture-taken-back`, 303);
    })

    .post("/captures/:id{[0-9]+}/measure", async (c) => {
      const found = capture(c);
      if (!found) return c.notFound();
      const { from } = await readForm(c);
      const asked = measureAgain(context, { captureId: found.id });
      const done = asked.ok ? "measure-asked" : "measure-not-asked";
      if (from === "tray") return c.redirect(`/tray?done=${done}&capture=${found.id}#capture-${found.id}`, 303);
      return c.redirect(from === "work" ? `/work?done=${done}` : `/captures/${found.id}?done=${done}`, 303);
    });
}

const typedOf = (capture: CaptureWithOriginal, print: string) => ({
  print,
  side: capture.side,
  method: capture.method ?? "",
  setUp: capture.setUpId === null ? "" : String(capture.setUpId),
  saidDay: capture.saidDay ?? "",
});

/** The form calls the print by its number and the set-up by its name. */
const aboutField = (refusal: Refusal): Refusal => ({
  ...refusal,
  about: refusal.about === "printId" ? "print" : refusal.about === "setUpId" ? "setUp" : refusal.about,
});

const shownCheck = (check: TargetCheck | null) =>
  check && { setUpId: check.setUpId, takenOn: check.takenOn, readings: check.read.readings };
