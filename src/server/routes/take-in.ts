import { Hono, type Context as Request } from "hono";
import { type CaptureInput, captureInput } from "#domain/capture/schema.ts";
import type { Refusal } from "#domain/outcome.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { countCollection } from "#drizzle/queries/overview.ts";
import { findPrint, listObjectNumbers } from "#drizzle/queries/prints.ts";
import { findSetUp, listSetUps } from "#drizzle/queries/set-ups.ts";
import { workProgress } from "#drizzle/queries/work.ts";
import { TakeInPage } from "#views/pages/take-in.tsx";
import type { FormState } from "#views/parts/field.tsx";
import type { FileReport } from "#views/parts/take-in-report.tsx";
import { takeInCapture } from "../actions/take-in-capture.ts";
import type { Context } from "../context.ts";
import { refusalsOf } from "./form.ts";
import { namedPrint } from "./named-print.ts";
import { MOST_FILES, readUpload, type SentFile } from "./upload.ts";

export function takeInRoutes(context: Context): Hono {
  const show = (c: Request, status: 200 | 422, form: FormState, report: readonly FileReport[] | null) =>
    c.html(
      TakeInPage({
        collectionName: readCollection(context.db).name,
        form,
        setUps: listSetUps(context.db),
        objectNumbers: listObjectNumbers(context.db),
        inTray: countCollection(context.db).inTray,
        work: workProgress(context.db),
        report,
        mostFiles: MOST_FILES,
      }),
      status,
    );

  return new Hono()
    .get("/add", (c) => show(c, 200, { typed: { print: c.req.query("print")?.slice(0, 100) ?? "" }, refusals: [] }, null))

    .post("/add", async (c) => {
      const report: FileReport[] = [];
      const sent = await readUpload(c.req.raw, async (file, fields) => {
        report.push(await takeIn(context, file, said(context, fields).input));
      });
      const refusals = [...said(context, sent.fields).refusals, ...refusalsOfWhole(sent, report.length)];
      const isRefused = refusals.length > 0 || report.every((file) => file.state === "refused");
      return show(c, isRefused ? 422 : 200, { typed: sent.fields, refusals }, report);
    });
}

/**
 * What the form says of all its files. What is not understood is told, but never keeps a file out:
 * the files are here, and would have to be chosen again.
 */
function said(context: Context, fields: Readonly<Record<string, string>>): { input: CaptureInput; refusals: Refusal[] } {
  const print = namedPrint(context, fields.print ?? "");
  const read = captureInput.safeParse({ side: fields.side, method: fields.method, setUpId: fields.setUp });
  const setUp = read.data?.setUpId === undefined ? null : findSetUp(context.db, read.data.setUpId);
  const unread = [...(print.ok ? [] : print.refusals), ...(read.success ? [] : refusalsOf(read.error))];
  return {
    input: {
      ...(print.ok && print.value !== null && { printId: print.value }),
      side: read.data?.side,
      method: read.data?.method ?? setUp?.method,
      setUpId: setUp?.id,
    },
    refusals: unread.map((refusal) => ({ ...refusal, remedy: `${refusal.remedy} ${WITHOUT_IT}`.trim() })),
  };
}

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
    return { name: file.name, state: "refused", refusals: [FAULT] };
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

const FAULT: Refusal = {
  about: null,
  happened: "The program met a fault of its own with this file, and nothing of it was kept.",
  remedy: "Try it once more by itself; the terminal where the program runs shows what to report.",
};
