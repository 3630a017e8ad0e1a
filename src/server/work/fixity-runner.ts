import { checkFixity } from "../actions/check-fixity.ts";
import type { Context } from "../context.ts";

export type FixityRunner = {
  readonly isRunning: () => boolean;
  /** begins a check, or goes on with one that was stopped; does nothing while one runs */
  readonly start: (runId?: number) => void;
  /** what was looked at is kept */
  readonly stop: () => void;
};

/** Checks the originals of a collection beside everything else, one check at a time. */
export function fixityRunner(context: Context): FixityRunner {
  let running: AbortController | null = null;
  return {
    isRunning: () => running !== null,
    start: (runId) => {
      if (running !== null) return;
      running = new AbortController();
      const stop = AbortSignal.any([running.signal, context.ending]);
      checkFixity(context, { stop, ...(runId !== undefined && { runId }) })
        // the run stays open, and the page says that it stopped
        .catch(console.error)
        .finally(() => {
          running = null;
        });
    },
    stop: () => running?.abort(),
  };
}
