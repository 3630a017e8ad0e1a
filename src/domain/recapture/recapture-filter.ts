import { PRESERVATION_MASTER_LIMITS } from "../aim/preservation-master.ts";
import { MEASURE_NAMES, type MeasureName } from "../measure/catalogue.ts";

/** Whether prints are meant that have to be captured again: for any reason, for want of a capture of the front, or for one measure. */
export type RecaptureFilter = "any" | "needed" | "no-capture" | MeasureName;

export const RECAPTURE_FILTERS: readonly RecaptureFilter[] = ["any", "needed", "no-capture", ...MEASURE_NAMES];

/** What a print's own capture must reach to be preservation master: the measures it can fall short in. */
export const REQUIRED_MEASURES: readonly MeasureName[] = MEASURE_NAMES.filter((name) =>
  PRESERVATION_MASTER_LIMITS.some(
    (limit) => limit.measure === name && limit.provedBy === "print" && (limit.requiredAtLeast !== null || limit.requiredAtMost !== null),
  ),
);
