import type { Purpose } from "../aim/aim.ts";
import type { Side } from "../capture/capture.ts";
import type { Judgement } from "./judgement.ts";

/** Which capture is the master of one side of a print for one purpose, and why. */
export type Choice = {
  readonly id: number;
  readonly printId: number;
  readonly side: Side;
  readonly purpose: Purpose;
  readonly aimId: number;
  /** null: no capture meets the requirements; `explanation.bestId` is then the best file that exists */
  readonly captureId: number | null;
  readonly runnerUpId: number | null;
  readonly decidedBy: "rule" | "person";
  /** who overruled; null where the rule decided */
  readonly who: string | null;
  /** a person's own words; null where the rule decided */
  readonly reason: string | null;
  /** one plain sentence of why */
  readonly sentence: string;
  readonly explanation: Judgement;
  readonly createdAt: string;
  /** null: it holds now */
  readonly supersededAt: string | null;
};
