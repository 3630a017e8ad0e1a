import { parentPort } from "node:worker_threads";
import type { Fault } from "../work/thread.ts";
import type { FileAnswer, FileJob } from "./measure-in-order.ts";
import { measurePlainFile } from "./measure-plain-files.ts";

parentPort?.on("message", async (job: FileJob) => {
  parentPort?.postMessage(await answer(job));
});

async function answer({ file, said }: FileJob): Promise<FileAnswer | Fault> {
  try {
    return { outcome: await measurePlainFile(file, said) };
  } catch (error) {
    return { fault: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}
