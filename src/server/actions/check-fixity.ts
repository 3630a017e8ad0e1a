import { readdir } from "node:fs/promises";
import path from "node:path";
import type { Refusal } from "#domain/outcome.ts";
import { listOriginals } from "#drizzle/queries/captures.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import {
  endFixityRun,
  type FixityOutcome,
  fixityOfOriginal,
  insertFixityCheck,
  listPrintsOfOriginal,
  listUncheckedOriginals,
  startFixityRun,
} from "#drizzle/queries/fixity.ts";
import { originalPath } from "../collection-folder.ts";
import type { Context } from "../context.ts";
import { hashFile } from "../intake/hash-file.ts";
import { isHalfCopy, listLeftovers } from "../intake/leftovers.ts";
import { chooseMasters } from "./choose-masters.ts";

export type FixityReport = { checked: number; problems: Refusal[]; left: number };

/**
 * Hashes every original again and looks for files without a record. Changes no file; each look is kept. Masters are chosen anew
 * where a file turns out damaged, or sound again.
 * @param options.runId a run that was stopped, to go on with; without it a new one begins
 */
export async function checkFixity(
  context: Context,
  options: { runId?: number; onProgress?: (done: number, all: number) => void; stop?: AbortSignal } = {},
): Promise<FixityReport> {
  const { db } = context;
  const runId = options.runId ?? startFixityRun(db, context.now());
  const originals = listUncheckedOriginals(db, runId);
  const report: FixityReport = { checked: 0, problems: [], left: originals.length };
  for (const original of originals) {
    if (options.stop?.aborted) break;
    const found = await hashOf(originalPath(context.folder, original.sha256));
    if (options.stop?.aborted) break;
    const outcome: FixityOutcome = "sha256" in found ? (found.sha256 === original.sha256 ? "unchanged" : "changed") : found.outcome;
    const before = fixityOfOriginal(db, original.id, 1)[0]?.outcome ?? "unchanged";
    const foundSha256 = "sha256" in found ? found.sha256 : null;
    insertFixityCheck(db, { originalId: original.id, checkedAt: context.now(), outcome, foundSha256, runId });
    if (outcome !== before) chooseMasters(context, { printIds: listPrintsOfOriginal(db, original.id) });
    if (outcome !== "unchanged") report.problems.push({ about: original.originalName, ...TROUBLE[outcome] });
    report.checked++;
    report.left--;
    options.onProgress?.(report.checked, originals.length);
  }
  // the collection may be closed by now: nothing is written any more
  if (options.stop?.aborted) return report;
  const strays = await listStrays(context, new Set(listOriginals(db).map(({ sha256 }) => sha256)));
  report.problems.push(...strays);
  const detail = { checked: report.checked, problems: report.problems.length };
  db.transaction((tx) => {
    endFixityRun(tx, runId, { endedAt: context.now(), strays });
    recordEvent(tx, { at: context.now(), userId: context.userId, verb: "checked", subject: "collection", subjectId: 1, detail });
  });
  return report;
}

async function hashOf(file: string): Promise<{ sha256: string } | { outcome: "missing" | "unreadable" }> {
  try {
    return { sha256: await hashFile(file) };
  } catch (error) {
    return { outcome: (error as NodeJS.ErrnoException).code === "ENOENT" ? "missing" : "unreadable" };
  }
}

/** Files among the originals that no record knows. */
async function listStrays(context: Context, known: ReadonlySet<string>): Promise<Refusal[]> {
  const { captures, incoming } = context.folder;
  const entries = await readdir(captures, { withFileTypes: true, recursive: true });
  const leftovers = new Set(listLeftovers(context.folder));
  return entries
    .filter((entry) => !entry.isDirectory())
    .map(({ name, parentPath }) => ({
      name,
      parentPath,
      about: ["captures", ...path.relative(captures, parentPath).split(path.sep), name],
    }))
    .filter(({ name, parentPath }) => !(known.has(name) && parentPath === path.join(captures, name.slice(0, 2))))
    .filter(({ name, parentPath }) => parentPath !== incoming || !isHalfCopy(name) || leftovers.has(name))
    .map(({ name, parentPath, about }) => ({
      about: about.filter((part) => part !== "").join("/"),
      ...(parentPath === incoming && isHalfCopy(name) ? LEFTOVER : HASH.test(name) ? UNKNOWN : STRANGER),
    }))
    .sort((a, b) => a.about.localeCompare(b.about, "en"));
}

const HASH = /^[0-9a-f]{64}$/;

const TROUBLE: Readonly<Record<Exclude<FixityOutcome, "unchanged">, Omit<Refusal, "about">>> = {
  changed: { happened: "The file is not what was taken in.", remedy: "Bring it back from a backup, and check the disk." },
  missing: { happened: "The file is gone.", remedy: "Bring it back from a backup." },
  unreadable: { happened: "The file cannot be read.", remedy: "Check the disk and the rights of the file, then check again." },
};
const UNKNOWN = {
  happened: "No record knows this file: its taking in was interrupted before it was written down.",
  remedy: "Add the file again from where it came from, or add this file itself; the same bytes are then found here.",
};
const STRANGER = {
  happened: "Somebody put this file here; it is none of the collection's.",
  remedy: "If it is a capture, add it; then move it away. Only the program puts files here.",
};
const LEFTOVER = { happened: "This is half a copy of a file.", remedy: "It goes by itself when the collection is opened next." };
