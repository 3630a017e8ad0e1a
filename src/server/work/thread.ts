import { availableParallelism } from "node:os";
import type { Worker } from "node:worker_threads";
import type { Answer, Job } from "./job.ts";
import { startThread } from "./start-thread.ts";

/** As many as there are cores; each may hold a whole picture, so that memory bounds them too. */
export const MOST_THREADS = Math.min(4, availableParallelism());

/** The program's or the machine's own, in words. */
export type Fault = { readonly fault: string };

/** A 300-megapixel file takes about a minute; anything longer has gone wrong. */
export const MOST_MS = 300_000;

/** One worker thread, started when it is first needed and again after it died. It does one job at a time. */
export class Thread<J = Job, A = Answer> {
  readonly #module: URL;
  readonly #mostMs: number;
  #worker: Promise<Worker> | null = null;

  /** @param module what the thread runs, and how long a job may take: replaced in tests */
  constructor(module: URL = WORKER, mostMs = MOST_MS) {
    this.#module = module;
    this.#mostMs = mostMs;
  }

  /** Never rejects: a thread that dies or takes too long is a fault in words. */
  async run(job: J): Promise<A | Fault> {
    this.#worker ??= startThread(this.#module);
    const worker = await this.#worker.catch((error) => String(error));
    if (typeof worker === "string") {
      this.#worker = null;
      return { fault: `the thread could not be started: ${worker}` };
    }
    return new Promise<A | Fault>((resolve) => {
      const end = (answer: A | Fault, keeps: boolean) => {
        clearTimeout(limit);
        // one by one: the worker hangs listeners of its own on itself, which must stay
        worker.off("message", onMessage).off("error", onError).off("exit", onExit);
        if (!keeps) {
          this.#worker = null;
          void worker.terminate();
        }
        resolve(answer);
      };
      const onMessage = (answer: A) => end(answer, true);
      const onError = (error: Error) => end({ fault: String(error) }, false);
      const onExit = () => end({ fault: "the thread ended in the middle of its work" }, false);
      const limit = setTimeout(() => end({ fault: `it took longer than ${Math.ceil(this.#mostMs / 1000)} seconds` }, false), this.#mostMs);
      worker.on("message", onMessage).on("error", onError).on("exit", onExit);
      worker.postMessage(job);
    });
  }

  async close(): Promise<void> {
    const worker = await this.#worker?.catch(() => null);
    this.#worker = null;
    await worker?.terminate();
  }
}

/** Does one job in a thread that is begun for it, and ended with it or at once when the collection is being closed. Never rejects. */
export async function runAlone<J, A>(thread: Thread<J, A>, job: J, ending: AbortSignal): Promise<A | Fault> {
  if (ending.aborted) return { fault: "the collection is being closed" };
  const close = () => void thread.close();
  ending.addEventListener("abort", close);
  try {
    return await thread.run(job);
  } finally {
    ending.removeEventListener("abort", close);
    await thread.close();
  }
}

const WORKER = new URL("./worker.ts", import.meta.url);
