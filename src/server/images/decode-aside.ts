import { startThread } from "../work/start-thread.ts";
import type { BarePixels } from "./memory-tiff.ts";
import { MOST_PIXELS, SECONDS_TO_DECODE } from "./policy.ts";
import { damaged, UnreadableImage } from "./unreadable-image.ts";

export type AsideDecoder = "heic" | "raw" | "uncommon-tiff";
export type AsideJob = { readonly path: string; readonly decoder: AsideDecoder; readonly mostPixels: number };

/**
 * Decodes in a thread of its own, for decoders that block, keep their memory, or may not come back.
 * @throws UnreadableImage when the decoder refuses the file or takes too long
 */
export async function decodeAside(path: string, decoder: AsideDecoder): Promise<BarePixels> {
  const job: AsideJob = { path, decoder, mostPixels: MOST_PIXELS };
  const worker = await startThread(new URL("./aside-thread.ts", import.meta.url), { workerData: job, stdout: true, stderr: true });
  return new Promise<BarePixels>((resolve, reject) => {
    const limit = setTimeout(() => reject(tooSlow()), SECONDS_TO_DECODE * 1000);
    worker.once("message", (answer: { pixels: BarePixels } | { error: string }) => {
      if ("pixels" in answer) resolve(answer.pixels);
      else reject(damaged(new Error(answer.error)));
    });
    worker.once("error", (error) => reject(damaged(error)));
    worker.once("exit", () => {
      clearTimeout(limit);
      reject(damaged(new Error("the decoder ended without an answer")));
    });
  }).finally(() => worker.terminate());
}

const tooSlow = () =>
  new UnreadableImage(
    `took longer than ${SECONDS_TO_DECODE} seconds to decode.`,
    "Save it as TIFF in the program that made it, then take in that file.",
  );
