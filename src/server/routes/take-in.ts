import { Hono, type Context as Request } from "hono";
import type { Method } from "#domain/capture/method.ts";
import { type CaptureInput, captureInput } from "#domain/capture/schema.ts";
import { circumstancesOf } from "#domain/condition/cautions-for.ts";
import { stopsOf } from "#domain/condition/method-stop.ts";
import type { Refusal } from "#domain/outcome.ts";
import { type CaptureWithOriginal, findCapture } from "#drizzle/queries/captures.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { latestFindings } from "#drizzle/queries/findings.ts";
import { countCollection } from "#drizzle/queries/overview.ts";
import { findPrint, findPrintByNumber, listObjectNumbers } from "#drizzle/queries/prints.ts";
import { findSetUp, listSetUps } from "#drizzle/queries/set-ups.ts";
import { workProgress } from "#drizzle/queries/work-progress.ts";
import { TakeInPage, type TakeInPageProps } from "#views/pages/take-in.tsx";
import { type FormState, NOTHING_TYPED } from "#views/parts/field.tsx";
import type { FileReport } from "#views/parts/take-in-report.tsx";
import type { TakeInStop } from "#views/parts/take-in-stops.tsx";
import { assignDespite } from "../actions/assign-despite.ts";
import { type StoppedPrint, stopOfFile, stopOfPrint } from "../actions/stop-method.ts";
import { takeInCapture } from "../actions/take-in-capture.ts";
import type { Context } from "../context.ts";
import { readForm, refusalsOf } from "./form.ts";
import { namedPrint } from "./named-print.ts";
import { FAULT_WITH_FILE, MOST_FILES, readUpload, refusalsOfCut, type SentFile } from "./upload.ts";

export function takeInRoutes(context: Context): Hono {
  type Shown = Pick<TakeInPageProps, "form"> & Partial<Pick<TakeInPageProps, "report" | "stops" | "keptFrom" | "done">>;
  const show = (c: Request, status: 200 | 422, { form, report = null, stops = [], keptFrom = [], done }: Shown) =>
    c.html(
      TakeInPage({
        collectionName: readCollection(context.db).name,
        form,
        setUps: listSetUps(context.db),
        objectNumbers: listObjectNumbers(context.db),
        inTray: countCollection(context.db).inTray,
        work: workProgress(context.db),
        report,
        stops,
        keptFrom,
        done,
        mostFiles: MOST_FILES,
      }),
      status,
    );

  return new Hono()
    .get("/add", (c) => {
      const number = c.req.query("print")?.slice(0, 100) ?? "";
      return show(c, 200, { form: { typed: { print: number }, refusals: [] }, keptFrom: keptFrom(context, number) });
    })

    .post("/add", async (c) => {
      const report: FileReport[] = [];
      const stopped: { stop: StoppedPrint; captureId: number; name: string }[] = [];
      const sent = await readUpload(c.req.raw, async (file, fields) => {
        const { input } = said(context, fields);
        const stop = input.despite === undefined ? stopOfFile(context.db, context.now(), file.name, input) : null;
        const taken = await takeIn(context, file, stop ? withoutMethod(input) : input);
        if (!stop || taken.state !== "taken-in") return void report.push(taken);
        stopped.push({ stop, captureId: taken.captureId, name: file.name });
        report.push({ ...taken, notes: [...taken.notes, HELD_BACK] });
      });
      const refusals = [...said(context, sent.fields).refusals, ...refusalsOfCut(sent), ...refusalsOfWhole(sent, report.length)];
      const isRefused = refusals.length > 0 || stopped.length > 0 || report.every((file) => file.state === "refused");
      const form = { typed: sent.fields, refusals };
      return show(c, isRefused ? 422 : 200, { form, report, stops: byPrint(stopped, sent.fields.setUp ?? "", NOTHING_TYPED) });
    })

    .post("/add/despite", async (c) => {
      const typed = await readForm(c);
      const read = captureInput.safeParse({ method: typed.method, setUpId: typed.setUp, despite: typed.despite });
      const { method, setUpId, despite } = read.data ?? {};
      const captures = listed(context, typed.captures);
      const [first] = captures;
      if (!first || (read.success && !method)) return c.notFound();
      const refusals = read.success ? (despite === undefined ? [NO_REASON] : []) : refusalsOf(read.error);
      if (method && despite !== undefined && refusals.length === 0) {
        const assigned = assignDespite(context, { captures, method, setUpId, despite });
        if (!assigned.ok) refusals.push(...assigned.refusals);
      }
      const formsFor = (some: readonly CaptureWithOriginal[], form: FormState) =>
        byPrint(method ? stoppedAmong(context, some, { method, setUpId }) : [], typed.setUp ?? "", form);
      const others = formsFor(
        listed(context, typed.waiting).filter((capture) => capture.method === null),
        NOTHING_TYPED,
      );
      if (refusals.length > 0) {
        const own = formsFor(captures, { typed, refusals });
        return show(c, 422, { form: { typed: {}, refusals: own.length > 0 ? [] : refusals }, stops: [...own, ...others] });
      }
      if (others.length > 0) return show(c, 200, { form: NOTHING_TYPED, stops: others, done: "caution-overruled" });
      return c.redirect(first.printId === null ? `/captures/${first.id}` : `/prints/${first.printId}?done=caution-overruled`, 303);
    });
}

/** The captures whose numbers a form brings back. */
const listed = (context: Context, ids = ""): CaptureWithOriginal[] =>
  ids
    .split(",")
    .slice(0, MOST_FILES)
    .flatMap((id) => (/^\d{1,15}$/.test(id) ? (findCapture(context.db, Number(id)) ?? []) : []));

const stoppedAmong = ({ db, now }: Context, captures: readonly CaptureWithOriginal[], way: { method: Method; setUpId?: number }) =>
  captures.flatMap(({ id, name, printId }) => {
    const stop = printId === null ? null : stopOfPrint(db, now(), printId, way);
    return stop ? [{ stop, captureId: id, name }] : [];
  });

/**
 * What the form says of all its files. What is not understood is told, but never keeps a file out:
 * the files are here, and would have to be chosen again.
 */
function said(context: Context, fields: Readonly<Record<string, string>>): { input: CaptureInput; refusals: Refusal[] } {
  const print = namedPrint(context, fields.print ?? "");
  const read = captureInput.safeParse({
    side: fields.side,
    method: fields.method,
    setUpId: fields.setUp,
    saidDay: fields.saidDay,
    despite: fields.despite,
  });
  const setUp = read.data?.setUpId === undefined ? null : findSetUp(context.db, read.data.setUpId);
  const unread = [...(print.ok ? [] : print.refusals), ...(read.success ? [] : refusalsOf(read.error))];
  return {
    input: {
      ...(print.ok && print.value !== null && { printId: print.value }),
      side: read.data?.side,
      method: read.data?.method ?? setUp?.method,
      setUpId: setUp?.id,
      saidDay: read.data?.saidDay,
      despite: read.data?.despite,
    },
    refusals: unread.map((refusal) => ({ ...refusal, remedy: `${refusal.remedy} ${WITHOUT_IT}`.trim() })),
  };
}

/** The set-up goes with it: it would say the method again. */
const withoutMethod = ({ printId, side, saidDay }: CaptureInput): CaptureInput => ({ printId, side, saidDay });

/** One form for each print whose captures wait for a reason. */
function byPrint(
  stopped: readonly { stop: StoppedPrint; captureId: number; name: string }[],
  setUp: string,
  form: FormState,
): TakeInStop[] {
  const stops = new Map<number, TakeInStop>();
  for (const { stop, captureId, name } of stopped) {
    const captures = [...(stops.get(stop.print.id)?.captures ?? []), { id: captureId, name }];
    stops.set(stop.print.id, { stop, print: stop.print, captures, setUp, form });
  }
  return [...stops.values()];
}

/** The methods that a print named in the address is kept from. */
function keptFrom(context: Context, number: string) {
  const print = number === "" ? null : findPrintByNumber(context.db, number);
  if (!print) return [];
  return stopsOf(circumstancesOf(print, context.now().slice(0, 10), latestFindings(context.db, [print.id]).get(print.id)));
}

const HELD_BACK = "It was taken in without the method that you said: a caution forbids it for this print (above).";

const NO_REASON: Refusal = {
  about: "despite",
  happened: "No reason was given.",
  remedy: "Write in a few words why it was done this way; or leave it, and the captures stay without a method.",
};

const WITHOUT_IT = "The files were taken in without it; add them again with what is right, or correct it in the tray and on each capture.";

/** One file of the lot. A fault with one is told and logged, and the next one comes. */
async function takeIn(context: Context, file: SentFile, input: CaptureInput): Promise<FileReport> {
  try {
    const taken = await takeInCapture(context, { source: file.stream, originalName: file.name, ...input });
    if (!taken.ok) return { name: file.name, state: "refused", refusals: taken.refusals };
    const { captureId, printId, alreadyHeld, notes } = taken.value;
    const print = printId === null ? null : findPrint(context.db, printId);
    return { name: file.name, state: alreadyHeld ? "already-held" : "taken-in", captureId, print, notes };
  } catch (error) {
    console.error(error);
    return { name: file.name, state: "refused", refusals: [FAULT_WITH_FILE] };
  }
}

function refusalsOfWhole(sent: { tooManyFiles: boolean; isWhole: boolean }, files: number): Refusal[] {
  if (sent.tooManyFiles)
    return [
      {
        about: "files",
        happened: `More than ${MOST_FILES} files were sent; those after the first ${MOST_FILES} were left out.`,
        remedy: "Add the same folder again: what is already here is not stored twice.",
      },
    ];
  if (!sent.isWhole)
    return [
      {
        about: "files",
        happened: "The form broke off before its end.",
        remedy: "Add the files again: those listed here as taken in are safe and are not stored twice.",
      },
    ];
  return files === 0 ? [{ about: "files", happened: "No file was chosen.", remedy: "Choose one or more picture files, or a folder." }] : [];
}
