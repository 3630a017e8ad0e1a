import { quantile } from "../measure/numbers/robust.ts";
import { patchesOf, type TargetLayout } from "./layout.ts";
import type { PatchCompared, TargetReading } from "./read-target.ts";

const NO_REFERENCE = "no reference values came with the target";
/** A patch with more of its pixels at an end says only that it is clipped. */
const MOST_CLIPPED = 0.02;
const FEWEST_FIELD_PATCHES = 4;
/** Less noise than this calls for a warning (36 CFR 1236.50, table 2: "a warning should be raised"). */
const LEAST_NOISE = 0.25;

/** Tone, white balance, colour, noise and evenness from the patches (meanings: FADGI 2016 and 36 CFR 1236.50, with each table). */
export function patchFigures(patches: readonly PatchCompared[], layout: TargetLayout, hasReference: boolean): TargetReading[] {
  const neutrals = patches.filter(({ id }) => layout.neutrals.includes(id));
  const known = patches.filter(isCompared);
  const knownNeutrals = neutrals.filter(isCompared);
  const tone = whyUnknown(knownNeutrals.length, layout.neutrals.length, ALL, hasReference);
  const colour = whyUnknown(known.length, patchesOf(layout).length, NEARLY_ALL, hasReference);
  const clipped = known.filter((patch) => patch.clipped > MOST_CLIPPED).map(({ id }) => id);
  const note = clipped.length > 0 ? { note: `Clipped: ${clipped.join(", ")}.` } : {};
  return [
    figure("toneResponseDeltaL", knownNeutrals, tone, (of) => Math.max(...of.map(({ truth, colour }) => Math.abs(colour[0] - truth[0])))),
    figure("whiteBalanceDeltaAb", knownNeutrals, tone, (of) =>
      Math.max(...of.map(({ truth, colour }) => Math.hypot(colour[1] - truth[1], colour[2] - truth[2]))),
    ),
    figure("colourAccuracyMeanDeltaE", known, colour, (of) => of.reduce((sum, { deltaE }) => sum + deltaE, 0) / of.length),
    figure("colourAccuracy90thDeltaE", known, colour, (of) =>
      quantile(
        of.map(({ deltaE }) => deltaE),
        0.9,
      ),
    ),
    figure("colourAccuracyMaximumDeltaE", known, colour, (of) => Math.max(...of.map(({ deltaE }) => deltaE))),
    noiseOf(neutrals),
    evenness(patches, layout),
  ].map((reading) => ("absent" in reading || reading.name === "targetNoiseDeltaL" ? reading : { ...reading, ...note }));
}

/** The patch with most noise; so little in the worst one is not what a sensor gives. */
function noiseOf(neutrals: readonly PatchCompared[]): TargetReading {
  const name = "targetNoiseDeltaL";
  if (neutrals.length === 0) return { name, absent: "no grey patch is on it" };
  const value = Math.max(...neutrals.map(({ noise }) => noise));
  if (value >= LEAST_NOISE) return { name, value };
  return {
    name,
    value,
    note: `Below ${LEAST_NOISE}: such a picture may have been smoothed, and fine detail with it. Look for noise reduction.`,
  };
}

/** Of the patches asked for, how many must be seen and have a reference value. */
const ALL = 1;
const NEARLY_ALL = 0.9;

/** Why patches say nothing of tone or colour; null where they do. */
function whyUnknown(known: number, asked: number, least: number, hasReference: boolean): string | null {
  if (!hasReference) return NO_REFERENCE;
  if (asked === 0) return "no such patch is on it";
  return known >= least * asked ? null : `only ${known} of its ${asked} patches were seen and have a reference value`;
}

type Compared = PatchCompared & { readonly truth: NonNullable<PatchCompared["truth"]>; readonly deltaE: number };
const isCompared = (patch: PatchCompared): patch is Compared => patch.truth !== null && patch.deltaE !== null;

function figure<T>(
  name: TargetReading["name"],
  of: readonly T[],
  absent: string | null,
  value: (of: readonly T[]) => number,
): TargetReading {
  return absent === null ? { name, value: value(of) } : { name, absent };
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
  return { name, value: (100 * Math.sqrt(variance)) / mean, bound: "lower", note: "Over the target, not the whole frame." };
}
