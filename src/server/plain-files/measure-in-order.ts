import { type Outcome, refused } from "#domain/outcome.ts";
import { MOST_THREADS, Thread } from "../work/thread.ts";
import { type MeasuredFile, measurePlainFile } from "./measure-plain-files.ts";
import type { SaidOfPrint } from "./read-plain-file.ts";

/** What a thread is told, and what it answers. */
export type FileJob = { readonly file: string; readonly said: SaidOfPrint };
export type FileAnswer = { readonly outcome: Outcome<MeasuredFile> };

const WORKER = new URL("./worker.ts", import.meta.url);
const FEWEST_FILES_OF_A_THREAD = 2;

/**
 * Measures files side by side, as many as there are cores, and answers in the order asked. A thread compiles anew what it runs,
 * which takes as long as two small files, so each gets two files at least, and fewer than four are measured here. After `stop` no
 * other file is begun.
 */
export async function* measureInOrder(
  files: readonly string[],
  said: SaidOfPrint,
  stop: AbortSignal,
  mostThreads = MOST_THREADS,
): AsyncGenerator<Outcome<MeasuredFile>> {
  const count = Math.min(mostThreads, Math.floor(files.length / FEWEST_FILES_OF_A_THREAD));
  if (count < 2) {
    for (const file of files) {
      if (stop.aborted) return;
      yield await measurePlainFile(file, said);
    }
    return;
  }
  const settle: ((outcome: Outcome<MeasuredFile> | null) => void)[] = [];
  const outcomes = files.map((_, at) => new Promise<Outcome<MeasuredFile> | null>((resolve) => (settle[at] = resolve)));
  let next = 0;
  const threads = Array.from({ length: count }, () => new Thread<FileJob, FileAnswer>(WORKER));
  const workOn = async (thread: Thread<FileJob, FileAnswer>) => {
    while (next < files.length) {
      const at = next++;
      settle[at]?.(stop.aborted ? null : await measuredBy(thread, files[at] as string, said));
    }
  };
  for (const thread of threads) void workOn(thread);
  try {
    for (const waited of outcomes) {
      const outcome = await waited;
      if (!outcome) return;
      yield outcome;
    }
  } finally {
    next = files.length;
    await Promise.all(threads.map((thread) => thread.close()));
  }
}

async function measuredBy(thread: Thread<FileJob, FileAnswer>, file: string, said: SaidOfPrint): Promise<Outcome<MeasuredFile>> {
  const answer = await thread.run({ file, said });
  if (!("fault" in answer)) return answer.outcome;
  return refused({
    about: file,
    happened: `The program met a fault of its own while it measured this file: ${answer.fault.split("\n")[0]?.slice(0, 300)}.`,
    remedy: "Measure it again; if it fails again, report it.",
  });
}
