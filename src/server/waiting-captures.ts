import type { Side } from "#domain/capture/capture.ts";
import { matchToPrint } from "#domain/capture/match-to-print.ts";
import { sideInName } from "#domain/capture/side-in-name.ts";
import { foundOutlines } from "#domain/measure/kept-outlines.ts";
import { type CaptureWithOriginal, listTray } from "#drizzle/queries/captures.ts";
import { findMeasureSet } from "#drizzle/queries/measures.ts";
import { listObjectNumbers } from "#drizzle/queries/prints.ts";
import type { WaitingCapture } from "#views/parts/together-form.tsx";
import type { Context } from "./context.ts";

/** Captures in the tray whose file names start with a print's number. A bed of several prints is not one of them: it is divided first. */
export const waitingFor = (context: Context, objectNumber: string): WaitingCapture[] =>
  waitingForEach(context, [objectNumber]).get(objectNumber) ?? [];

/** The same for several prints, by their numbers; those for which nothing waits are left out. */
export function waitingForEach(context: Context, objectNumbers: readonly string[]): Map<string, WaitingCapture[]> {
  const waiting = new Map<string, WaitingCapture[]>();
  const named = listTray(context.db).filter(({ original }) => matchToPrint(original.originalName, objectNumbers) !== null);
  if (named.length === 0) return waiting;
  const numbers = listObjectNumbers(context.db);
  for (const capture of named) {
    const number = matchToPrint(capture.original.originalName, numbers);
    if (number === null || !objectNumbers.includes(number) || isBed(context, capture.id)) continue;
    waiting.set(number, [...(waiting.get(number) ?? []), { capture, side: sideShown(capture, number) }]);
  }
  return waiting;
}

/** The side that a capture in the tray shows: the one its name tells after the number, else the one it was taken in with. */
export const sideShown = (capture: CaptureWithOriginal, objectNumber: string | null): Side =>
  (objectNumber === null ? null : sideInName(capture.original.originalName, objectNumber)) ?? capture.side;

const isBed = (context: Context, captureId: number) => foundOutlines(findMeasureSet(context.db, captureId, "alone")).length > 1;
