import { rm } from "node:fs/promises";
import type { Readable } from "node:stream";
import { stands } from "#domain/capture/capture.ts";
import { guessMethod } from "#domain/capture/guess-method.ts";
import { matchToPrint } from "#domain/capture/match-to-print.ts";
import { IS_PUT_AWAY } from "#domain/capture/put-away.ts";
import type { CaptureInput } from "#domain/capture/schema.ts";
import { sideInName } from "#domain/capture/side-in-name.ts";
import { refusalOfStop } from "#domain/condition/method-stop.ts";
import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import type { Queryable } from "#drizzle/client.ts";
import { findOriginalBySha256, insertCapture, insertOriginal, listCapturesOfOriginal } from "#drizzle/queries/captures.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { findPrint, findPrintByNumber, listObjectNumbers } from "#drizzle/queries/prints.ts";
import { findSetUp } from "#drizzle/queries/set-ups.ts";
import { enqueueMeasure } from "#drizzle/queries/work.ts";
import type { Context } from "../context.ts";
import { readToItsEnd } from "../images/decode.ts";
import { type CopiedIn, copyIn, keep, plainName } from "../intake/copy-in.ts";
import { type Inspected, inspect } from "../intake/inspect.ts";
import { recordOverruledStop, stopOfFile, stopOfPrint } from "./stop-method.ts";
import { takeInAgain } from "./take-in-again.ts";

export type TakeInCapture = CaptureInput & { source: Readable; originalName: string };

export type TakenIn = {
  captureId: number;
  originalId: number;
  /** null: it waits in the tray */
  printId: number | null;
  /** the same bytes were here before; nothing was stored twice */
  alreadyHeld: boolean;
  notes: string[];
};

/**
 * Takes one file in, once and whole: copied under a passing name and hashed, looked at, given its
 * lasting name, and only then written down, with its work, in one transaction. Killed at any moment
 * before that, the collection does not know the file; it is added again and then found.
 */
export async function takeInCapture(context: Context, { source, originalName, ...said }: TakeInCapture): Promise<Outcome<TakenIn>> {
  const name = plainName(originalName);
  const mistaken = whyNotSo(context, name, said);
  if (mistaken) {
    // a file that is still being opened must not fail afterwards, unheard
    source.on("error", () => {}).destroy();
    return refused(mistaken);
  }
  const copied = await copyIn(context.folder, source, name);
  if (!copied.ok) return copied;
  try {
    const held = alreadyHeld(context.db, copied.value.sha256);
    if (held) return await takeInAgain(context, held, { ...said, name, copied: copied.value });
    const inspected = await inspect(copied.value.path, name, readToItsEnd);
    if (!inspected.ok) return inspected;
    const kept = await keep(context.folder, copied.value, name);
    if (!kept.ok) return kept;
    const taken = context.db.transaction(
      (tx) => alreadyHeld(tx, copied.value.sha256) ?? writeDown(tx, context, name, copied.value, inspected.value, said),
    );
    context.nudgeWork();
    return done(taken);
  } catch (error) {
    const refusal = notWrittenDown(error, name);
    if (refusal) return refused(refusal);
    throw error;
  } finally {
    await rm(copied.value.path, { force: true });
  }
}

/** What was said of the file that cannot be so; null when it can. */
function whyNotSo({ db, now }: Context, about: string, said: CaptureInput): Refusal | null {
  const print = said.printId === undefined ? null : findPrint(db, said.printId);
  if (said.printId !== undefined && !print)
    return { about, happened: "The print it was said to show does not exist.", remedy: "Choose a print of the collection." };
  if (print && print.binnedAt !== null)
    return { about, happened: `Print ${print.objectNumber} is in the bin.`, remedy: "Restore the print first, or choose another." };
  if (said.setUpId !== undefined && !findSetUp(db, said.setUpId))
    return { about, happened: "The set-up it was said to be made with does not exist.", remedy: "Choose one of the set-ups, or none." };
  const stop = said.despite === undefined ? stopOfFile(db, now(), about, said) : null;
  return stop && refusalOfStop(stop, stop.print.objectNumber);
}

/** A record that the database could not take; the file itself is kept and is found when it is added again. */
function notWrittenDown(error: unknown, about: string): Refusal | null {
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  const again = "then add the file again: it is not stored twice.";
  if (code === "SQLITE_FULL")
    return {
      about,
      happened: "The disk is full: the record of this file could not be written.",
      remedy: `Make room on the disk, ${again}`,
    };
  if (code.startsWith("SQLITE_BUSY"))
    return {
      about,
      happened: "The database was busy for too long: the record of this file could not be written.",
      remedy: `Wait until the other program is done, ${again}`,
    };
  if (code.startsWith("SQLITE_IOERR"))
    return { about, happened: "The disk failed: the record of this file could not be written.", remedy: `Check the disk, ${again}` };
  return null;
}

function alreadyHeld(db: Queryable, sha256: string): TakenIn | null {
  const original = findOriginalBySha256(db, sha256);
  if (!original) return null;
  const captures = listCapturesOfOriginal(db, original.id);
  const parts = captures.filter(({ divided }) => !divided);
  const capture = parts.find(stands) ?? parts[0] ?? captures[0];
  // it is a photograph of a finding, and becomes a capture now
  if (!capture) return null;
  const notes = [`The same file is here already, taken in as “${original.originalName}”; it is not stored twice.`];
  if (parts.length < captures.length) notes.push(`It is a bed that was divided into ${parts.length} captures; this is the first of them.`);
  if (capture.putAwayAt !== null) notes.push(`It was put away. ${IS_PUT_AWAY.remedy}`);
  return { captureId: capture.id, originalId: original.id, printId: capture.printId, alreadyHeld: true, notes };
}

function writeDown(
  tx: Queryable,
  context: Context,
  name: string,
  copied: CopiedIn,
  { facts, hints }: Inspected<unknown>,
  said: CaptureInput,
): TakenIn {
  const notes = facts.metadataNote === null ? [] : [facts.metadataNote];
  const number = matchToPrint(name, listObjectNumbers(tx));
  const printId = said.printId ?? printByNumber(tx, number, notes);
  const side = said.side ?? (number === null ? null : sideInName(name, number)) ?? "front";
  const guessed = guessMethod(hints, facts.kind, facts.claimedPpiX);
  const method = said.method ?? guessed;
  const original =
    findOriginalBySha256(tx, copied.sha256) ??
    insertOriginal(tx, { ...facts, originalName: name, sha256: copied.sha256, bytes: copied.bytes });
  const capture = insertCapture(tx, {
    originalId: original.id,
    printId,
    side,
    method,
    methodBasis: method === null ? null : said.method ? "said" : "guessed",
    setUpId: said.setUpId ?? null,
    saidDay: said.saidDay ?? null,
  });
  enqueueMeasure(tx, capture.id);
  recordEvent(tx, {
    at: context.now(),
    userId: context.userId,
    verb: "taken in",
    subject: "capture",
    subjectId: capture.id,
    printId,
    detail: { originalName: name, sha256: copied.sha256, bytes: copied.bytes },
  });
  const stop =
    said.method && said.despite && printId !== null
      ? stopOfPrint(tx, context.now(), printId, { method: said.method, setUpId: said.setUpId })
      : null;
  if (stop && said.despite) recordOverruledStop(tx, context, stop, { captureId: capture.id, fileName: name, reason: said.despite });
  return { captureId: capture.id, originalId: original.id, printId, alreadyHeld: false, notes };
}

/** @param number the object number that the file's name starts with */
function printByNumber(db: Queryable, number: string | null, notes: string[]): number | null {
  const print = number === null ? null : findPrintByNumber(db, number);
  if (!print) return null;
  if (print.binnedAt === null) return print.id;
  notes.push(`Its name belongs to print ${print.objectNumber}, which is in the bin: the capture waits in the tray.`);
  return null;
}
