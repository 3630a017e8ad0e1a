import { type Outcome, refused } from "#domain/outcome.ts";
import type { KeptTargetRead } from "#domain/target/kept-read.ts";
import { type Fault, Thread } from "../work/thread.ts";
import { turns } from "../work/turns.ts";
import type { TargetFile } from "./read-target-file.ts";
import type { TargetAnswer } from "./worker.ts";

/** Reading many at once would fill the memory. */
const inTurn = turns();

const thread = new Thread<TargetFile, TargetAnswer>(new URL("./worker.ts", import.meta.url));
const CLOSING: Fault = { fault: "the collection is being closed" };
const close = () => {
  clearTimeout(closing);
  void thread.close();
};
/** Who checks a set-up often checks the next one at once, and a thread takes longer to start than a target to be read. */
const KEPT_MS = 3000;
let closing: NodeJS.Timeout | undefined;

/** Reads a target in a thread of its own, one after another, so that the pages of others come meanwhile. */
export function readInThread(file: TargetFile, ending: AbortSignal): Promise<Outcome<KeptTargetRead | null>> {
  return inTurn(async () => {
    clearTimeout(closing);
    // the same listener is held once, however often it is added
    ending.addEventListener("abort", close);
    const answer = ending.aborted ? CLOSING : await thread.run(file);
    closing = setTimeout(close, KEPT_MS).unref();
    if ("outcome" in answer) return answer.outcome;
    if (!ending.aborted) console.error(answer.fault);
    return refused({
      about: file.name,
      happened: "The program met a fault of its own while it read the target.",
      remedy: "Try again, and report it if it stays.",
    });
  });
}
