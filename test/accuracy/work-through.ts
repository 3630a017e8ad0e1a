import { type ChildProcess, fork } from "node:child_process";
import { fileURLToPath } from "node:url";
import type { Kept } from "./kept-answers.ts";

export type Done = Kept & { readonly name: string };

/**
 * Has tasks done by as many processes as are asked for, each given the next one when it is done with the last. Ends them all and rejects
 * when one of them fails: a table with a hole would pass for a whole one.
 */
export async function workThrough(
  names: readonly string[],
  seeds: readonly number[],
  processes: number,
  onDone: (done: Done) => void,
): Promise<void> {
  const waiting = [...names];
  const workers = Array.from({ length: Math.min(processes, names.length) }, () =>
    fork(fileURLToPath(new URL("./worker.ts", import.meta.url)), seeds.map(String)),
  );
  try {
    await Promise.all(workers.map((worker) => keepBusy(worker, waiting, onDone)));
  } finally {
    for (const worker of workers) worker.kill();
  }
}

function keepBusy(worker: ChildProcess, waiting: string[], onDone: (done: Done) => void): Promise<void> {
  return new Promise((resolve, reject) => {
    let current: string | undefined;
    const next = () => {
      current = waiting.shift();
      if (current === undefined) resolve();
      else worker.send(current);
    };
    worker.on("message", (done: Done) => {
      onDone(done);
      next();
    });
    worker.on("error", reject);
    worker.on("exit", (code, signal) => reject(new Error(`the process that did "${current}" ended with ${signal ?? code}`)));
    next();
  });
}
