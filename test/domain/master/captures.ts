import type { AimLimit } from "#domain/aim/aim.ts";
import { atLeast, atMost } from "#domain/aim/limit.ts";
import type { Candidate } from "#domain/master/choose.ts";
import type { MeasureName } from "#domain/measure/catalogue.ts";
import type { Present, Reading } from "#domain/measure/reading.ts";

/** Three measures that only count, with round ends. */
export const COUNTING: readonly AimLimit[] = [
  atLeast("samplingPpi", { lowest: 0, best: 100 }, 3, ["own", "test"]),
  atLeast("sfr50CyPerMm", { lowest: 0, best: 100 }, 2, ["own", "test"]),
  atMost("noiseDeltaL", { best: 0, highest: 100 }, 1, ["own", "test"]),
];

/** Readings as “value”, “null: absent because …” or a whole reading. */
export function capture(captureId: number, read: Partial<Record<MeasureName, number | string | Omit<Present, "name">>>): Candidate {
  const readings = new Map<string, Reading>();
  for (const [name, given] of Object.entries(read)) {
    const measure = name as MeasureName;
    if (typeof given === "number") readings.set(name, { name: measure, value: given, reliability: "firm" });
    else if (typeof given === "string") readings.set(name, { name: measure, absent: given });
    else readings.set(name, { name: measure, ...given });
  }
  return { captureId, fileName: `capture-${captureId}.tif`, readings };
}

/** Numbers that are the same in every run (mulberry32). */
export function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}
