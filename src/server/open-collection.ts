import { openDatabase } from "#drizzle/client.ts";
import { ensureCollection } from "#drizzle/queries/collection.ts";
import { ensurePurposes } from "./actions/ensure-purposes.ts";
import { openFolder } from "./collection-folder.ts";
import type { Context } from "./context.ts";
import { clearLeftovers } from "./intake/leftovers.ts";

/** What a collection is called until its keeper names it. */
export const DEFAULT_NAME = "Our collection";

/**
 * Opens the collection kept in a folder, making it when the folder is new.
 * @throws NewerDatabaseError when a newer program wrote it
 */
export function openCollection(directory: string, options: { name?: string; isDemo?: boolean } = {}): Context & { close: () => void } {
  const folder = openFolder(directory);
  const db = openDatabase(folder.database);
  clearLeftovers(folder);
  const { userId } = ensureCollection(db, { name: options.name ?? DEFAULT_NAME, isDemo: options.isDemo ?? false });
  const now = () => new Date().toISOString();
  ensurePurposes({ db, now, userId });
  const ending = new AbortController();
  const close = () => {
    ending.abort();
    db.$client.close();
  };
  return { db, folder, now, userId, ending: ending.signal, nudgeWork: () => {}, close };
}
