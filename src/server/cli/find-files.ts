import { readdir, stat } from "node:fs/promises";
import path from "node:path";
import type { Refusal } from "#domain/outcome.ts";

export type FoundFile = { readonly path: string; readonly name: string };

/** Files that systems leave in folders; names that begin with a dot are left out too. */
const LEFT_BY_SYSTEMS = new Set(["thumbs.db", "desktop.ini"]);

/**
 * The files named, and those in the folders named and all folders inside, in the order of their
 * names with numbers counted. Links to folders are not followed, so that no circle is walked.
 */
export async function findFiles(named: readonly string[]): Promise<{ files: FoundFile[]; refusals: Refusal[] }> {
  const files: FoundFile[] = [];
  const refusals: Refusal[] = [];
  for (const each of named) {
    try {
      const found = await stat(each);
      if (found.isDirectory()) files.push(...(await filesInside(each)));
      else files.push({ path: each, name: path.basename(each) });
    } catch (error) {
      refusals.push({ about: each, happened: whyNot(error), remedy: "Check the name and the rights, and try again." });
    }
  }
  return { files, refusals };
}

async function filesInside(folder: string): Promise<FoundFile[]> {
  const entries = (await readdir(folder, { withFileTypes: true, recursive: true })).filter((entry) => entry.isFile());
  return entries
    .map((entry) => ({ path: path.join(entry.parentPath, entry.name), name: entry.name }))
    .filter((file) => !path.relative(folder, file.path).split(path.sep).some(isLeftOut))
    .sort((a, b) => a.path.localeCompare(b.path, "en", { numeric: true }));
}

const isLeftOut = (name: string): boolean => name.startsWith(".") || LEFT_BY_SYSTEMS.has(name.toLowerCase());

function whyNot(error: unknown): string {
  const code = error instanceof Error && "code" in error ? error.code : undefined;
  if (code === "ENOENT") return "There is no such file or folder.";
  if (code === "EACCES" || code === "EPERM") return "It may not be read.";
  return `It cannot be read (${error instanceof Error ? error.message : String(error)}).`;
}
