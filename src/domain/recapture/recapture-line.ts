import type { Side } from "../capture/capture.ts";
import type { Method } from "../capture/method.ts";
import type { Shortfall } from "../master/judgement.ts";

/** What to change, by the physics of what fell short. */
export type Advice = {
  readonly sentence: string;
  readonly source: string;
  /** a plan works out how far, for this print and the set-up at hand */
  readonly needsPlan?: boolean;
};

/** A requirement that the best capture does not meet, with what to do about it. */
export type RecaptureReason = Shortfall & {
  readonly label: string;
  readonly unit: string;
  /** e.g. “Sampling is 310 ppi; at least 392 ppi are asked, so 82 ppi are missing.” */
  readonly sentence: string;
  readonly advice: readonly Advice[];
};

/** One side of a print that has to be captured again for one purpose. */
export type RecaptureLine = {
  readonly printId: number;
  readonly objectNumber: string;
  readonly title: string;
  readonly processId: string;
  /** from the outermost place inwards; empty when the place is not known */
  readonly placePath: readonly string[];
  readonly side: Side;
  readonly purposeKey: string;
  readonly purposeName: string;
  readonly why: "no-capture" | "falls-short";
  /** the best file that exists; null without captures */
  readonly best: {
    readonly captureId: number;
    readonly fileName: string;
    readonly method: Method | null;
    readonly setUpName: string | null;
  } | null;
  /** what is asked of the best and not met; empty without captures */
  readonly reasons: readonly RecaptureReason[];
  /** advice that does not hang on one measure, e.g. for a print that was never captured */
  readonly advice: readonly Advice[];
  /** true while captures of this side still wait to be measured: the line may go away */
  readonly stillMeasuring: boolean;
};
