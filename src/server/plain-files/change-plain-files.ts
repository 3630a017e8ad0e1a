import { changeBetween, type QualifiedCapture } from "#domain/condition/change/change-between.ts";
import { type ChangeReport, changeReport } from "#domain/condition/change/change-report.ts";
import { qualificationOf } from "#domain/condition/change/qualification.ts";
import { makeGrid } from "#domain/measure/laying/print-grid.ts";
import { largestOutline } from "#domain/measure/measure-capture.ts";
import { findOutlines } from "#domain/measure/outline/outline.ts";
import { done, type Outcome, refused } from "#domain/outcome.ts";
import { decodedAgain } from "./measure-plain-files.ts";
import { type PlainFile, readPlainFile, type SaidOfPrint } from "./read-plain-file.ts";

type Held = { readonly facts: Omit<PlainFile, "picture" | "context">; readonly capture: QualifiedCapture };

/** Holds a newer file against an older one that shows the same side of the same print. */
export async function changePlainFiles(olderFile: string, newerFile: string, said: SaidOfPrint): Promise<Outcome<ChangeReport>> {
  const older = await held(olderFile, said);
  const newer = olderFile === newerFile ? older : await held(newerFile, said);
  if (!older.ok && !newer.ok && older !== newer) return { ok: false, refusals: [...older.refusals, ...newer.refusals] };
  if (!older.ok) return older;
  if (!newer.ok) return newer;
  const [one, other] = [older.value, newer.value];
  if (one.facts.sha256 === other.facts.sha256)
    return refused({
      about: `${olderFile}, ${newerFile}`,
      happened: "They are one and the same file, byte for byte, which cannot tell a change.",
      remedy: "Name two captures that were made at different times.",
    });
  const found = await changeBetween(one.capture, other.capture);
  if ("refused" in found)
    return refused({
      about: `${olderFile}, ${newerFile}`,
      happened: `They cannot be held against each other: ${found.refused}.`,
      remedy: `${said.sheetMm || said.formatId ? "Check" : "Say the size with --sheet-mm or --format, and check"} that both show the same side of one print, whole and in focus.`,
    });
  return done(
    changeReport(
      { ...one.facts, qualification: one.capture.qualification },
      { ...other.facts, qualification: other.capture.qualification },
      found.change,
    ),
  );
}

async function held(file: string, said: SaidOfPrint): Promise<Outcome<Held>> {
  const read = await readPlainFile(file, said);
  if (!read.ok) return read;
  const { picture, context, ...facts } = read.value;
  const outline = largestOutline(findOutlines(picture, context));
  return done({
    facts,
    capture: {
      outline,
      grid: outline && makeGrid(picture, outline, context),
      sizes: context,
      picture: () => decodedAgain(file),
      qualification: qualificationOf(facts.method),
    },
  });
}
