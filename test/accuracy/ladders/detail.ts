import { isPresent } from "#domain/measure/reading.ts";
import { captureFinePrint, drawFinePrint, type FineCapture } from "../../fixtures/fine-captures.ts";
import { detailOf, trueLimit } from "../../fixtures/fine-sets.ts";

const LEVELS_MM = [0.04, 0.06, 0.09, 0.13, 0.18];
const SHARP: FineCapture = { ppi: 400, blurMm: 0.05, noiseCodes: 3, noiseSeed: 1, turnDeg: 1, cornersOffMm: 0.1 };
const OTHERS: readonly FineCapture[] = [
  { ...SHARP, noiseSeed: 2, quarters: 1, turnDeg: 2 },
  { ...SHARP, ppi: 450, noiseSeed: 3, turnDeg: -2 },
];

/** Of one capture at a blur: how far its detail goes, with the truth worked out from the drawing alone, cy/mm. */
export type DetailRung = {
  readonly blurMm: number;
  readonly captures: 2 | 3;
  readonly seed: number;
  readonly truth: number;
  /** NaN where absent */
  readonly read: number;
  readonly reliability: string;
  readonly isAtLeast: boolean;
};

/** A capture that gets ever softer, beside one and beside two that stay sharp. */
export async function climbDetail(seeds: readonly number[]): Promise<DetailRung[]> {
  const rungs: DetailRung[] = [];
  for (const seed of seeds) {
    const print = drawFinePrint(seed);
    const others = OTHERS.map((options) => captureFinePrint(print, { ...options, noiseSeed: 10 * seed + options.noiseSeed }));
    for (const blurMm of LEVELS_MM) {
      const options = { ...SHARP, blurMm, noiseSeed: 10 * seed };
      const soft = captureFinePrint(print, options);
      const truth = trueLimit(print, options, soft);
      for (const captures of [2, 3] as const) {
        const [reading] = await detailOf([soft, ...others.slice(0, captures - 1)]);
        const present = isPresent(reading) ? reading : null;
        rungs.push({
          blurMm,
          captures,
          seed,
          truth,
          read: present?.value ?? Number.NaN,
          reliability: present?.reliability ?? "absent",
          isAtLeast: present?.bound === "lower",
        });
      }
    }
    console.error(`detail of print ${seed}`);
  }
  return rungs;
}
