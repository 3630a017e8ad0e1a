import { type Outcome, refused } from "#domain/outcome.ts";
import type { KeptTargetRead } from "#domain/target/kept-read.ts";
import { runAlone, Thread } from "../work/thread.ts";
import type { TargetFile } from "./read-target-file.ts";
import type { TargetAnswer } from "./worker.ts";

/** Reading many at once would fill the memory. */
let turn: Promise<unknown> = Promise.resolve();

/** Reads a target in a thread of its own, one after another, so that the pages of others come meanwhile. */
export function readInThread(file: TargetFile, ending: AbortSignal): Promise<Outcome<KeptTargetRead | null>> {
  const reading = turn.then(async () => {
    const thread = new Thread<TargetFile, TargetAnswer>(new URL("./worker.ts", import.meta.url));
    const answer = await runAlone(thread, file, ending);
    if ("outcome" in answer) return answer.outcome;
    if (!ending.aborted) console.error(answer.fault);
    return refused({
      about: file.name,
      happened: "The program met a fault of its own while it read the target.",
      remedy: "Try again, and report it if it stays.",
    });
  });
  turn = reading.catch(() => {});
  return reading;
}
