import { claimWork, finishWork, letGoOfWork, releaseExpired, renewLease, type Work } from "#drizzle/queries/work.ts";
import { workProgress } from "#drizzle/queries/work-progress.ts";
import type { Context } from "../context.ts";
import type { Answer, Job } from "./job.ts";
import { jobOf, settle } from "./settle.ts";
import { MOST_THREADS, Thread } from "./thread.ts";

export type Working = {
  /** Lets go of what runs, so that it waits again, and ends the threads. */
  readonly stop: () => Promise<void>;
  /** Settles when nothing waits or runs. */
  readonly idle: () => Promise<void>;
};

const LEASE_MS = 30_000;
/** Other processes enter work into the same database: nobody nudges for those. */
const LOOK_EVERY_MS = 400;

export type WorkOptions = {
  readonly threads?: number;
  /** called with each print that is measured as far as it can be */
  readonly onMeasured?: (printId: number) => void;
  /** a process that died is noticed after this long; a living one renews it with every look */
  readonly leaseMs?: number;
  /** replaced in tests */
  readonly thread?: () => Thread;
};

/**
 * Works through the queue of a collection in worker threads. The threads only read and measure;
 * every row is written here, so that there is one writer.
 */
export function startWork(context: Context, options: WorkOptions = {}): Working {
  const { threads: count = MOST_THREADS, thread = () => new Thread(), leaseMs = LEASE_MS } = options;
  const free = Array.from({ length: count }, thread);
  const threads = [...free];
  const running = new Map<number, Work>();
  const waiters: (() => void)[] = [];
  let stopped = false;

  const leaseUntil = () => new Date(Date.now() + leaseMs).toISOString();

  function look(): void {
    if (stopped) return;
    try {
      takeUpWork();
    } catch (error) {
      // a database that is busy or full for a moment must not end the program; the next look comes soon
      console.error(error);
    }
  }

  function renew(): void {
    for (const id of running.keys()) renewLease(context.db, id, leaseUntil());
  }

  function takeUpWork(): void {
    // after the machine has slept every lease is over, also those of work that still runs here
    renew();
    releaseExpired(context.db, new Date().toISOString());
    while (free.length > 0) {
      const work = claimWork(context.db, new Date().toISOString(), leaseUntil());
      if (!work) break;
      carryOut(work, free.pop() as Thread).catch(console.error);
    }
    if (running.size === 0 && waiters.length > 0) {
      const { waiting, running: elsewhere } = workProgress(context.db);
      if (waiting + elsewhere === 0) for (const settled of waiters.splice(0)) settled();
    }
  }

  async function carryOut(work: Work, by: Thread): Promise<void> {
    running.set(work.id, work);
    const job = jobOf(context, work);
    const answer = job ? await by.run(job) : null;
    running.delete(work.id);
    free.push(by);
    if (stopped) return;
    try {
      if (job && answer) settleOrSayWhy(work, job, answer);
      finishWork(context.db, work, context.now());
    } finally {
      look();
    }
  }

  /** An answer that cannot be written down, or a print that cannot be judged, must not stop the others. */
  function settleOrSayWhy(work: Work, job: Job, answer: Answer): void {
    if ("fault" in answer) console.error(`work ${work.id} (${work.kind}): ${answer.fault}`);
    try {
      const printId = settle(context, work, job, answer);
      if (printId !== null) options.onMeasured?.(printId);
    } catch (error) {
      console.error(error);
      settle(context, work, job, { fault: error instanceof Error ? error.message : String(error) });
    }
  }

  const looking = setInterval(look, LOOK_EVERY_MS);
  context.nudgeWork = () => setImmediate(look);
  look();

  return {
    idle: () =>
      new Promise((resolve) => {
        waiters.push(resolve);
        setImmediate(look);
      }),
    stop: async () => {
      stopped = true;
      clearInterval(looking);
      context.nudgeWork = () => {};
      for (const id of running.keys()) letGoOfWork(context.db, id);
      await Promise.all(threads.map((each) => each.close()));
      for (const settled of waiters.splice(0)) settled();
    },
  };
}
