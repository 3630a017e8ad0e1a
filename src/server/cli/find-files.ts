import { readdir, stat } from "node:fs/promises";
import path from "node:path";
import type { Refusal } from "#domain/outcome.ts";
import { unreadFile } from "../plain-files/unread-file.ts";

export type FoundFile = { readonly path: string; readonly name: string };

/** Files that systems leave in folders; names that begin with a dot are left out too. */
const LEFT_BY_SYSTEMS = new Set(["thumbs.db", "desktop.ini"]);

type Found = { files: FoundFile[]; refusals: Refusal[] };

/**
 * The files named, and those in the folders named and all folders inside, in the order of their
 * names with numbers counted. Links inside folders are told, not followed, so that no circle is walked;
 * what cannot be read is told, and the rest is found all the same.
 */
export async function findFiles(named: readonly string[]): Promise<Found> {
  const found: Found = { files: [], refusals: [] };
  for (const each of named) {
    try {
      if ((await stat(each)).isDirectory()) {
        const inside = await filesInside(each);
        found.files.push(...inside.files.sort((a, b) => a.path.localeCompare(b.path, "en", { numeric: true })));
        found.refusals.push(...inside.refusals);
      } else found.files.push({ path: each, name: path.basename(each) });
    } catch (error) {
      found.refusals.push(unreadFile(each, error));
    }
  }
  return found;
}

async function filesInside(folder: string): Promise<Found> {
  const found: Found = { files: [], refusals: [] };
  const entries = await readdir(folder, { withFileTypes: true }).catch((error: unknown) => {
    found.refusals.push(unreadFile(folder, error));
    return [];
  });
  for (const entry of entries) {
    if (isLeftOut(entry.name)) continue;
    const inner = path.join(folder, entry.name);
    if (entry.isFile()) found.files.push({ path: inner, name: entry.name });
    else if (entry.isSymbolicLink()) found.refusals.push(isLink(inner));
    else if (entry.isDirectory()) {
      const { files, refusals } = await filesInside(inner);
      found.files.push(...files);
      found.refusals.push(...refusals);
    }
  }
  return found;
}

const isLeftOut = (name: string): boolean => name.startsWith(".") || LEFT_BY_SYSTEMS.has(name.toLowerCase());

const isLink = (about: string): Refusal => ({
  about,
  happened: "It is a link; links inside folders are not followed.",
  remedy: "Name it by itself, or name what it leads to.",
});
