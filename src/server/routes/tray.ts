import { Hono, type Context as Request } from "hono";
import { frameOf, SIDES, stands } from "#domain/capture/capture.ts";
import { areAsGiven, cornersTyped, newPart, partsTyped, typedFrom, unreadCorners } from "#domain/capture/corner-fields.ts";
import { numberInName } from "#domain/capture/number-in-name.ts";
import { type Lot, trayPages } from "#domain/capture/tray-pages.ts";
import { foundOutlines } from "#domain/measure/kept-outlines.ts";
import type { Refusal } from "#domain/outcome.ts";
import { type CaptureWithOriginal, findCapture, listTray } from "#drizzle/queries/captures.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { findMeasureSet } from "#drizzle/queries/measures.ts";
import { findPrintByNumber, listObjectNumbers } from "#drizzle/queries/prints.ts";
import { measuringOfCaptures, workProgress } from "#drizzle/queries/work-progress.ts";
import { type TrayLot, TrayPage } from "#views/pages/tray.tsx";
import type { FormState } from "#views/parts/field.tsx";
import type { ShownOutline } from "#views/parts/outline-overlay.tsx";
import { assignCapture } from "../actions/assign-capture.ts";
import { divideBed } from "../actions/divide-bed.ts";
import type { Context } from "../context.ts";
import { sideShown } from "../waiting-captures.ts";
import { idIn, readForm } from "./form.ts";
import { measuringInWords } from "./measuring-in-words.ts";
import { namedPrint } from "./named-print.ts";
import { pageAsked } from "./page-asked.ts";

export function trayRoutes(context: Context): Hono {
  /** Only a capture in the tray is sorted here; others are corrected on their own page. */
  const findWaiting = (id: number | null): CaptureWithOriginal | null => {
    const found = id === null ? null : findCapture(context.db, id);
    return found && found.printId === null && stands(found) ? found : null;
  };
  const waiting = (c: Request) => findWaiting(idIn(c));

  const show = (c: Request, status: 200 | 422, refused?: { captureId: number; form: FormState }) => {
    const { name, objectNumberPattern } = readCollection(context.db);
    const objectNumbers = listObjectNumbers(context.db);
    const captures = listTray(context.db);
    const numberOf = (capture: CaptureWithOriginal) => numberInName(capture.original.originalName, objectNumbers, objectNumberPattern);
    const pages = trayPages(captures, numberOf, PER_PAGE);
    const page = pageToShow(c, pages, refused?.captureId);
    const lots = pages[page - 1] ?? [];
    const measuring = measuringOfCaptures(
      context.db,
      lots.flatMap((lot) => lot.captures.map(({ id }) => id)),
    );
    const shown = ({ number, captures: ofLot }: Lot<CaptureWithOriginal>): TrayLot => ({
      number,
      printId: (number === null ? null : findPrintByNumber(context.db, number))?.id ?? null,
      items: ofLot.map((capture) => ({
        capture,
        side: sideShown(capture, number),
        outlines: outlinesOf(context, capture.id),
        notMeasured: measuringInWords(measuring.get(capture.id)),
      })),
      refused: refused && ofLot.some(({ id }) => id === refused.captureId) ? refused : null,
    });
    return c.html(
      TrayPage({
        collectionName: name,
        total: captures.length,
        page,
        pages: pages.length,
        lots: lots.map(shown),
        objectNumbers,
        work: workProgress(context.db),
        done: c.req.query("done"),
      }),
      status,
    );
  };

  return new Hono()
    .get("/tray", (c) => show(c, 200))

    .post("/tray/together", async (c) => {
      const typed = await readForm(c);
      const named = sidesNamed(typed);
      const first = named[0]?.captureId ?? 0;
      const print = namedPrint(context, typed.print ?? "");
      const chosen = named.flatMap(({ captureId, side }) => (side && findWaiting(captureId) ? [{ captureId, side }] : []));
      const refused = (refusals: readonly Refusal[]) => show(c, 422, { captureId: first, form: { typed, refusals } });
      if (!print.ok) return refused(print.refusals);
      if (print.value === null) return refused([NO_NUMBER]);
      for (const { captureId, side } of chosen) {
        const assigned = assignCapture(context, { captureId, printId: print.value, side });
        if (!assigned.ok) return refused(assigned.refusals);
      }
      const done = chosen.length > 0 ? "captures-assigned" : "none-assigned";
      return c.redirect(typed.from === "print" ? `/prints/${print.value}?done=${done}` : `/tray?done=${done}`, 303);
    })

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
      const found = outlinesOf(context, capture.id);
      if (typed.add !== undefined) {
        const number = Math.max(found.length, ...partsTyped(typed)) + 1;
        const corners = typedFrom(number, newPart(typed.drawn, frameOf(capture)));
        return show(c, 200, { captureId: capture.id, form: { typed: { ...typed, drawn: "", ...corners }, refusals: [] } });
      }
      const numbers = [...new Set([...found.map((_, index) => index + 1), ...partsTyped(typed)])];
      const named = numbers.flatMap((number) => {
        if (typed[`leave${number}`] !== undefined) return [];
        const field = `part${number}`;
        return [{ ...partTyped(typed, number, found), print: namedPrint(context, typed[field] ?? "", field) }];
      });
      const refusals = named.flatMap(({ print, refusals }) => [...refusals, ...(print.ok ? [] : print.refusals)]);
      if (refusals.length > 0) return refused(refusals);
      const parts = named.map(({ number, outline, corners, print }) => ({
        number,
        outline,
        corners,
        printId: print.ok ? print.value : null,
      }));
      const divided = divideBed(context, { captureId: capture.id, parts });
      return divided.ok ? c.redirect("/tray?done=bed-divided", 303) : refused(divided.refusals);
    });
}

/** One part of a bed as the form holds it: found and left as it was, moved, or drawn. */
function partTyped(typed: Readonly<Record<string, string>>, number: number, found: readonly ShownOutline[]) {
  const given = found[number - 1];
  const outline = given ? number - 1 : null;
  if (given && (!partsTyped(typed).includes(number) || areAsGiven(typed, number, given.sheet)))
    return { number, outline, corners: null, refusals: [] };
  const corners = cornersTyped(typed, number);
  const refusals: Refusal[] = corners ? [] : [unreadCorners(typed, number)];
  return { number, outline, corners, refusals };
}

/** The page asked for by its number or by a capture on it, or the one with the form that was refused. */
function pageToShow(c: Request, pages: readonly Lot<CaptureWithOriginal>[][], refused: number | undefined): number {
  const wanted = refused ?? Number(c.req.query("capture"));
  const holding = pages.findIndex((lots) => lots.some((lot) => lot.captures.some(({ id }) => id === wanted)));
  return holding >= 0 ? holding + 1 : pageAsked(c.req.query("page"), { perPage: 1, total: pages.length });
}

/** The captures that a form for several names, each with the side chosen for it; null where it is left in the tray. */
const sidesNamed = (typed: Readonly<Record<string, string>>) =>
  Object.entries(typed).flatMap(([name, value]) => {
    const captureId = /^side(\d{1,15})$/.exec(name)?.[1];
    return captureId === undefined ? [] : [{ captureId: Number(captureId), side: SIDES.find((side) => side === value) ?? null }];
  });

const PER_PAGE = 12;

const outlinesOf = (context: Context, captureId: number) => foundOutlines(findMeasureSet(context.db, captureId, "alone"));

const NO_NUMBER: Refusal = { about: "print", happened: "No number was given.", remedy: "Write the object number of the print it shows." };
