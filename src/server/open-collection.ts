import { openDatabase } from "#drizzle/client.ts";
import { ensureCollection } from "#drizzle/queries/collection.ts";
import { openFolder } from "./collection-folder.ts";
import type { Context } from "./context.ts";

/**
 * Opens the collection kept in a folder, making it when the folder is new.
 * @throws NewerDatabaseError when a newer program wrote it
 */
export function openCollection(directory: string, options: { name?: string; isDemo?: boolean } = {}): Context & { close: () => void } {
  const folder = openFolder(directory);
  const db = openDatabase(folder.database);
  const { userId } = ensureCollection(db, { name: options.name ?? "Our collection", isDemo: options.isDemo ?? false });
  return {
    db,
    folder,
    now: () => new Date().toISOString(),
    userId,
    nudgeWork: () => {},
    close: () => db.$client.close(),
  };
}
