import { existsSync } from "node:fs";
import path from "node:path";
import { NewerDatabaseError } from "#drizzle/client.ts";
import type { Context } from "../context.ts";
import { openCollection } from "../open-collection.ts";
import { Ending, EXIT } from "./exit-code.ts";
import type { Terminal } from "./terminal.ts";

/** The options of every command, told alike. */
export const COLLECTION = ["--collection <DIR>", "folder of the collection (or SOLANDER_COLLECTION)"] as const;
export const JSON_ANSWER = ["--json", "answer for programs on standard output"] as const;

/** What every command takes. */
export type CommonOptions = { readonly collection?: string; readonly json?: boolean };

type Opening = {
  /** a folder that holds no collection yet gets one */
  readonly mayBeNew?: boolean;
  readonly name?: string;
  readonly isDemo?: boolean;
};

/** The folder named by --collection or by the environment. */
export function collectionDirectory(terminal: Terminal, options: CommonOptions): string {
  const directory = options.collection ?? terminal.env.SOLANDER_COLLECTION;
  if (directory === undefined || directory.trim() === "")
    throw new Ending(EXIT.usage, "Say which collection is meant: --collection DIR, or the environment's SOLANDER_COLLECTION.");
  return path.resolve(directory);
}

/** Opens a collection for as long as `use` takes, and closes it whatever happens. */
export async function withCollection<T>(directory: string, opening: Opening, use: (context: Context) => Promise<T> | T): Promise<T> {
  if (!opening.mayBeNew && !holdsCollection(directory))
    throw new Ending(
      EXIT.noCollection,
      `There is no collection in ${directory}. Check the name of the folder; “serve” and “add” make a new one.`,
    );
  const context = open(directory, opening);
  try {
    return await use(context);
  } finally {
    context.close();
  }
}

export const holdsCollection = (directory: string): boolean => existsSync(path.join(directory, "solander.db"));

function open(directory: string, { name, isDemo }: Opening) {
  try {
    return openCollection(directory, { ...(name !== undefined && { name }), ...(isDemo !== undefined && { isDemo }) });
  } catch (error) {
    if (error instanceof NewerDatabaseError) throw new Ending(EXIT.noCollection, error.message);
    const code = error instanceof Error && "code" in error ? String(error.code) : "";
    const why = WHY_NOT[code] ?? (code.startsWith("SQLITE_") ? `its database cannot be read (${code})` : null);
    if (why === null) throw error;
    throw new Ending(EXIT.noCollection, `The collection in ${directory} cannot be opened: ${why}. Nothing was changed.`);
  }
}

const WHY_NOT: Readonly<Record<string, string>> = {
  SQLITE_NOTADB: "solander.db is not a database of this program; restore it from a backup",
  SQLITE_CORRUPT: "solander.db is damaged; restore it from a backup",
  SQLITE_CANTOPEN: "solander.db cannot be opened; check that the folder may be read and written",
  SQLITE_BUSY: "another program is busy with it; try again when that one is done",
  SQLITE_READONLY: "solander.db may not be written; check the rights of the file",
  SQLITE_FULL: "the disk is full; make room first",
  EACCES: "the folder may not be read or written; check its rights",
  EPERM: "the folder may not be read or written; check its rights",
  EROFS: "the disk is read-only",
  ENOSPC: "the disk is full; make room first",
  ENOTDIR: "a part of its path is a file, not a folder",
  EEXIST: "it is a file, not a folder",
};
