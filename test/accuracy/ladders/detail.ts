import { captureFinePrint, type FineCapture } from "../../fixtures/fine-captures.ts";
import { detailOf, trueLimit } from "../../fixtures/fine-sets.ts";
import { type ToldByName, toldOf } from "../told.ts";
import { finePrintOf } from "./fine-print.ts";

export const LEVELS_MM = [0.04, 0.06, 0.09, 0.13, 0.18];
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
  /** null where detail is above the noise at every frequency that the sampling holds */
  readonly truth: number | null;
  readonly told: ToldByName;
};

/** A capture of a blur, beside one and beside two that stay sharp. */
export async function detailAt(blurMm: number, seed: number): Promise<DetailRung[]> {
  const print = finePrintOf(seed);
  const others = OTHERS.map((options) => captureFinePrint(print, { ...options, noiseSeed: 10 * seed + options.noiseSeed }));
  const options = { ...SHARP, blurMm, noiseSeed: 10 * seed };
  const soft = captureFinePrint(print, options);
  const truth = trueLimit(print, options, soft);
  const rungs: DetailRung[] = [];
  for (const captures of [2, 3] as const) {
    const readings = await detailOf([soft, ...others.slice(0, captures - 1)]);
    rungs.push({ blurMm, captures, seed, truth: Number.isFinite(truth) ? truth : null, told: toldOf(readings.slice(0, 1)) });
  }
  return rungs;
}
