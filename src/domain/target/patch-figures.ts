import { quantile } from "../measure/robust.ts";
import type { TargetLayout } from "./layout.ts";
import type { PatchCompared, TargetReading } from "./read-target.ts";

const NO_REFERENCE = "no reference values came with the target";
/** A patch with more of its pixels at an end says only that it is clipped. */
const MOST_CLIPPED = 0.02;
const FEWEST_FIELD_PATCHES = 4;

/** Tone, white balance, colour, noise and evenness from the patches (meanings: FADGI 2016 and 36 CFR 1236.50, with each table). */
export function patchFigures(patches: readonly PatchCompared[], layout: TargetLayout, hasReference: boolean): TargetReading[] {
  const neutrals = patches.filter(({ id }) => layout.neutrals.includes(id));
  const known = patches.filter(isCompared);
  const knownNeutrals = neutrals.filter(isCompared);
  const clipped = known.filter((patch) => patch.clipped > MOST_CLIPPED).map(({ id }) => id);
  const note = clipped.length > 0 ? { note: `Clipped: ${clipped.join(", ")}.` } : {};
  return [
    figure("toneResponseDeltaL", knownNeutrals, "no grey patch of known lightness is on it", hasReference, (of) =>
      Math.max(...of.map(({ truth, colour }) => Math.abs(colour[0] - truth[0]))),
    ),
    figure("whiteBalanceDeltaAb", knownNeutrals, "no grey patch of known colour is on it", hasReference, (of) =>
      Math.max(...of.map(({ truth, colour }) => Math.hypot(colour[1] - truth[1], colour[2] - truth[2]))),
    ),
    figure(
      "colourAccuracyMeanDeltaE",
      known,
      NO_COLOURS,
      hasReference,
      (of) => of.reduce((sum, { deltaE }) => sum + deltaE, 0) / of.length,
    ),
    figure("colourAccuracy90thDeltaE", known, NO_COLOURS, hasReference, (of) =>
      quantile(
        of.map(({ deltaE }) => deltaE),
        0.9,
      ),
    ),
    figure("colourAccuracyMaximumDeltaE", known, NO_COLOURS, hasReference, (of) => Math.max(...of.map(({ deltaE }) => deltaE))),
    figure("targetNoiseDeltaL", neutrals, "no grey patch is on it", true, (of) => Math.max(...of.map(({ noise }) => noise))),
    evenness(patches, layout),
  ].map((reading) => ("absent" in reading || reading.name === "targetNoiseDeltaL" ? reading : { ...reading, ...note }));
}

const NO_COLOURS = "no patch of known colour is on it";

type Compared = PatchCompared & { readonly truth: NonNullable<PatchCompared["truth"]>; readonly deltaE: number };
const isCompared = (patch: PatchCompared): patch is Compared => patch.truth !== null && patch.deltaE !== null;

function figure<T>(
  name: TargetReading["name"],
  of: readonly T[],
  absent: string,
  hasReference: boolean,
  value: (of: readonly T[]) => number,
): TargetReading {
  if (!hasReference) return { name, absent: NO_REFERENCE };
  return of.length === 0 ? { name, absent } : { name, value: value(of) };
}

/** Standard deviation over mean of L* of patches of one material all over the sheet (FADGI 2016: of a plain field that fills the frame). */
function evenness(patches: readonly PatchCompared[], { field }: TargetLayout): TargetReading {
  const name = "lightnessUniformityPercent";
  const values = patches.filter(({ id }) => field.includes(id)).map(({ colour }) => colour[0]);
  if (values.length < FEWEST_FIELD_PATCHES)
    return {
      name,
      absent: "the target has no like patches all over its sheet; a picture of an even white sheet that fills the frame would tell",
    };
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1);
  return { name, value: (100 * Math.sqrt(variance)) / mean, note: "Over the target, not the whole frame: at least." };
}
