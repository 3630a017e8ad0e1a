import { readdir } from "node:fs/promises";
import path from "node:path";
import type { Refusal } from "#domain/outcome.ts";
import { listOriginals } from "#drizzle/queries/captures.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { type FixityOutcome, insertFixityCheck } from "#drizzle/queries/fixity.ts";
import { originalPath } from "../collection-folder.ts";
import type { Context } from "../context.ts";
import { hashFile } from "../intake/hash-file.ts";
import { isHalfCopy, listLeftovers } from "../intake/leftovers.ts";

export type FixityReport = { checked: number; problems: Refusal[]; left: number };

/** Hashes every original again and looks for files without a record. Changes no file; each look is kept. */
export async function checkFixity(
  context: Context,
  options: { onProgress?: (done: number, all: number) => void; stop?: AbortSignal } = {},
): Promise<FixityReport> {
  const originals = listOriginals(context.db);
  const report: FixityReport = { checked: 0, problems: [], left: 0 };
  for (const [index, original] of originals.entries()) {
    if (options.stop?.aborted) {
      report.left = originals.length - index;
      break;
    }
    const found = await hashOf(originalPath(context.folder, original.sha256));
    const outcome: FixityOutcome = "sha256" in found ? (found.sha256 === original.sha256 ? "unchanged" : "changed") : found.outcome;
    insertFixityCheck(context.db, {
      originalId: original.id,
      checkedAt: context.now(),
      outcome,
      foundSha256: "sha256" in found ? found.sha256 : null,
    });
    if (outcome !== "unchanged") report.problems.push({ about: original.originalName, ...TROUBLE[outcome] });
    report.checked++;
    options.onProgress?.(index + 1, originals.length);
  }
  report.problems.push(...(await strangers(context, new Set(originals.map(({ sha256 }) => sha256)))));
  const detail = { checked: report.checked, problems: report.problems.length };
  recordEvent(context.db, { at: context.now(), userId: context.userId, verb: "checked", subject: "collection", subjectId: 1, detail });
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
async function strangers(context: Context, known: ReadonlySet<string>): Promise<Refusal[]> {
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
