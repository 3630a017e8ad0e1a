import { setTimeout as wait } from "node:timers/promises";
import type { Work } from "#drizzle/queries/work.ts";
import { countWork, listFailedWork, workProgress } from "#drizzle/queries/work-progress.ts";
import { chooseMasters } from "../actions/choose-masters.ts";
import type { Context } from "../context.ts";
import { startWork } from "../work/queue.ts";
import { showProgress } from "./progress.ts";
import type { Terminal } from "./terminal.ts";

type WorkCount = Readonly<Record<"waiting" | "running" | "done" | "failed", number>>;

export type Worked = {
  /** pieces of work done in this run */
  readonly done: number;
  /** what could not be measured, with the words for the keeper */
  readonly failed: readonly { readonly fileName: string | null; readonly error: string }[];
  /** left for the next run, because the keeper stopped this one */
  readonly left: number;
};

const LOOK_EVERY_MS = 150;

/** Measures all that waits and chooses the masters, until nothing waits or the keeper stops it. What is left waits for the next run. */
export async function workToTheEnd(context: Context, terminal: Terminal): Promise<Worked> {
  const before = workProgress(context.db);
  const captures = progressOf(context, terminal, "measure", "Measuring");
  const comparisons = progressOf(context, terminal, "compare", "Comparing captures");
  const show = () => {
    captures.show();
    // comparisons come up while captures are measured: only then is their number known
    if (captures.areAllSettled()) comparisons.show();
  };
  const work = startWork(context, { onMeasured: (printId) => chooseMasters(context, { printIds: [printId] }) });
  let isIdle = false;
  const idle = work.idle().then(() => {
    isIdle = true;
  });
  try {
    while (!isIdle && !terminal.stop.aborted) {
      show();
      await Promise.race([idle, wait(LOOK_EVERY_MS)]);
    }
  } finally {
    await work.stop();
    show();
    captures.end();
    comparisons.end();
  }
  const after = workProgress(context.db);
  const failed = listFailedWork(context.db, Math.max(0, after.failed - before.failed));
  return {
    done: after.done - before.done,
    failed: failed.map(({ name, error }) => ({ fileName: name, error })),
    left: after.waiting + after.running,
  };
}

/** How far one kind of work has come in this run; nothing is said where there is none. */
function progressOf(context: Context, terminal: Terminal, kind: Work["kind"], what: string) {
  const now = countInThisRun(() => countWork(context.db, kind));
  const progress = showProgress(terminal, what);
  return {
    show: () => {
      const { open, settled } = now();
      if (open + settled > 0) progress.show(settled, settled + open);
    },
    areAllSettled: () => now().open === 0,
    end: progress.end,
  };
}

/** What is open and what was settled since the run began. Work done before that is asked for again counts from when it is open again. */
export function countInThisRun(count: () => WorkCount): () => { open: number; settled: number } {
  const settledIn = ({ done, failed }: WorkCount) => done + failed;
  let before = settledIn(count());
  return () => {
    const now = count();
    before = Math.min(before, settledIn(now));
    return { open: now.waiting + now.running, settled: settledIn(now) - before };
  };
}
