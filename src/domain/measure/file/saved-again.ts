import type { Reading } from "../reading.ts";
import type { Shared } from "./shared-noise.ts";

/**
 * savedAgainCount: how many other captures of this side of the print are the same exposure, saved again (resized, cropped, recompressed,
 * lightened): their finest patterns, in which the print shows nothing and each exposure has a noise of its own, are the same
 * (shared-noise.ts). Such captures bear out nothing that the other shows. Where noise is shared, but so little that a sensor's own
 * pattern may be all of it, nothing is counted and the reading is weak.
 * A copy that was blurred, or saved so hard that its noise is gone, is not told: at least. Nor is one that was made smaller and saved as JPEG: what
 * compression leaves has no more in common with its source just below half its sampling than two exposures have (coherence, copy and two exposures, of one drawn
 * capture at 70 %: 0.53 and 0.57; at 50 %: 0.74 and 0.90), and further down the print's own detail hides the noise (0.97 and 0.92; 0.98 and 0.98).
 * Source: own.
 */
export function savedAgain(index: number, captureIds: readonly number[], shared: Shared): Reading {
  const others = captureIds.flatMap((captureId, other) => (other === index ? [] : [{ captureId, bond: shared(index, other) }]));
  const same = others.filter(({ bond }) => bond === "same-exposure").map(({ captureId }) => captureId);
  const doubtful = others.filter(({ bond }) => bond === "shared-noise").map(({ captureId }) => captureId);
  return {
    name: "savedAgainCount",
    value: same.length,
    bound: "lower",
    reliability: same.length > 0 ? "firm" : doubtful.length > 0 ? "weak" : "fair",
    ...(same.length === 0 && doubtful.length > 0 && { note: DOUBTFUL }),
    detail: { sameExposureAs: same, ...(doubtful.length > 0 && { sharesNoiseWith: doubtful }) },
  };
}

export const savedAgainAbsent = (absent: string): Reading => ({ name: "savedAgainCount", absent });

const DOUBTFUL =
  "It shares some noise with another capture: the same exposure saved again, or another one of the same device with the print at the same place.";

/** The captures that a stored reading names as the same exposure. */
export function sameExposureAs(readings: readonly Reading[]): readonly number[] {
  const reading = readings.find(({ name }) => name === "savedAgainCount");
  const ids = reading && "detail" in reading ? reading.detail?.sameExposureAs : undefined;
  return Array.isArray(ids) ? ids.filter((id): id is number => typeof id === "number") : [];
}
