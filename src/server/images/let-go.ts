import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";

/** Collecting takes about 20 ms, which pays only where as much as this may lie idle. */
const LARGE_BYTES = 64_000_000;

let decodedBytes = 0;

/** Says that this thread has decoded so much more. */
export function noteDecoded(bytes: number): void {
  decodedBytes += bytes;
}

/**
 * Lets go of the pictures that nobody holds any more, before the next one is decoded. The image library takes the memory of
 * its pixels outside the heap, where it does not move the collector to look: two pictures of 60 megapixels would lie there at once.
 */
export function letGoOfDecoded(): void {
  if (decodedBytes < LARGE_BYTES) return;
  decodedBytes = 0;
  collect ??= collector();
  collect();
}

let collect: (() => void) | null = null;

/** A context made once the flag is set knows the engine's collector by its name. The flag stays: threads share it. */
function collector(): () => void {
  setFlagsFromString("--expose-gc");
  return runInNewContext("gc");
}
