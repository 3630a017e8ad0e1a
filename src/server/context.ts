import type { Database } from "#drizzle/client.ts";
import type { CollectionFolder } from "./collection-folder.ts";

/** Everything an action needs besides its input. Made once by open-collection.ts. */
export type Context = {
  readonly db: Database;
  readonly folder: CollectionFolder;
  /** ISO 8601 UTC; replaced in tests */
  readonly now: () => string;
  /** who acts; until sign-in exists, the keeper at this machine */
  readonly userId: number;
  /** aborted when the collection is being closed: long work begins nothing more and writes nothing more */
  readonly ending: AbortSignal;
  /** tells the work queue that rows are waiting; the queue puts its own in while it works */
  nudgeWork: () => void;
};
