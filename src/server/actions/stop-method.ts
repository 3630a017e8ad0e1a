import { matchToPrint } from "#domain/capture/match-to-print.ts";
import type { Method } from "#domain/capture/method.ts";
import type { CaptureInput } from "#domain/capture/schema.ts";
import { circumstancesOf } from "#domain/condition/cautions-for.ts";
import { type MethodStop, methodStop } from "#domain/condition/method-stop.ts";
import type { Queryable } from "#drizzle/client.ts";
import { type NewEvent, recordEvent } from "#drizzle/queries/events.ts";
import { latestFindings } from "#drizzle/queries/findings.ts";
import { findPrint, findPrintByNumber, listObjectNumbers } from "#drizzle/queries/prints.ts";
import { findSetUp } from "#drizzle/queries/set-ups.ts";
import type { Context } from "../context.ts";

export type StoppedPrint = MethodStop & { readonly print: { readonly id: number; readonly objectNumber: string } };

/** How a capture was made, as it is said: glass over the print is known of the set-up. */
type SaidWay = { readonly method: Method; readonly setUpId?: number | null };

/** The caution that stands between a print as it is known now and a way of capturing; null when none does. */
export function stopOfPrint(db: Queryable, now: string, printId: number, { method, setUpId }: SaidWay): StoppedPrint | null {
  const print = findPrint(db, printId);
  if (!print) return null;
  const glass = setUpId ? findSetUp(db, setUpId)?.arrangement?.glass : undefined;
  const stop = methodStop(
    { method, hasGlass: (glass ?? "none") !== "none" },
    circumstancesOf(print, now.slice(0, 10), latestFindings(db, [printId]).get(printId)),
  );
  return stop && { ...stop, print };
}

/** The same for a file that is being taken in: its print is the one that is said, or the one its name belongs to. */
export function stopOfFile(db: Queryable, now: string, name: string, { printId, method, setUpId }: CaptureInput): StoppedPrint | null {
  if (method === undefined) return null;
  const number = printId === undefined ? matchToPrint(name, listObjectNumbers(db)) : null;
  const named = number === null ? null : findPrintByNumber(db, number);
  const id = printId ?? (named?.binnedAt === null ? named.id : undefined);
  return id === undefined ? null : stopOfPrint(db, now, id, { method, setUpId });
}

/** Keeps in the history that a person used a method despite a caution, and why. */
export function recordOverruledStop(
  tx: Queryable,
  { now, userId }: Context,
  { method, hasGlass, caution, print }: StoppedPrint,
  { captureId, fileName, reason }: { captureId: number; fileName: string; reason: string },
): void {
  const event: NewEvent = { at: now(), userId, verb: "caution overruled", subject: "capture", subjectId: captureId, printId: print.id };
  recordEvent(tx, { ...event, detail: { fileName, method, withGlass: hasGlass, caution: caution.id, title: caution.title, reason } });
}
