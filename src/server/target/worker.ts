import { parentPort } from "node:worker_threads";
import type { Outcome } from "#domain/outcome.ts";
import type { KeptTargetRead } from "#domain/target/kept-read.ts";
import type { Fault } from "../work/thread.ts";
import { readTargetFile, type TargetFile } from "./read-target-file.ts";

export type TargetAnswer = { readonly outcome: Outcome<KeptTargetRead | null> };

parentPort?.on("message", async (job: TargetFile) => {
  parentPort?.postMessage(await answer(job));
});

async function answer(job: TargetFile): Promise<TargetAnswer | Fault> {
  try {
    return { outcome: await readTargetFile(job) };
  } catch (error) {
    return { fault: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}
