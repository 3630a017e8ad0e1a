import type { MeasureName } from "./catalogue.ts";
import { layCaptures, NONE_LINED_UP, type ToCompare } from "./laying/lay-captures.ts";
import { type Laid, layFinely } from "./laying/lay-finely.ts";
import { EVENNESS_TOGETHER, evennessTogether } from "./light/evenness-together.ts";
import { GLARE_TOGETHER, glareTogether } from "./light/glare-together.ts";
import { HAZE_TOGETHER, hazeTogether } from "./light/haze-together.ts";
import type { Picture } from "./picture.ts";
import type { Reading } from "./reading.ts";
import { corroboratedDetail, DETAIL_TOGETHER } from "./sharpness/corroborated-detail.ts";
import { FOCUS_TOGETHER, focusTogether } from "./sharpness/focus-together.ts";
import { DUST_TOGETHER, dustTogether } from "./surface/dust-together.ts";
import { RINGS_TOGETHER, ringsTogether } from "./surface/rings-together.ts";

/**
 * A measure by comparison. It is given two or more captures of one side of a print, laid on each other, and answers with
 * the readings of each, in the same order: each of its names once for each capture, present or absent.
 */
type MeasureTogether = {
  readonly names: readonly MeasureName[];
  readonly read: (laid: readonly Laid[]) => readonly (readonly Reading[])[];
};

const MEASURES_TOGETHER: readonly MeasureTogether[] = [
  { names: GLARE_TOGETHER, read: glareTogether },
  { names: HAZE_TOGETHER, read: hazeTogether },
  { names: EVENNESS_TOGETHER, read: evennessTogether },
  { names: DETAIL_TOGETHER, read: corroboratedDetail },
  { names: FOCUS_TOGETHER, read: focusTogether },
  { names: DUST_TOGETHER, read: dustTogether },
  { names: RINGS_TOGETHER, read: ringsTogether },
];

/** Every measure that comparison answers, with or without a value. */
const NAMES_TOGETHER: readonly MeasureName[] = MEASURES_TOGETHER.flatMap(({ names }) => names);

export type Compared = { readonly captureId: number; readonly readings: readonly Reading[] };

/**
 * Reads what captures of one side of a print tell only beside each other: they are laid on one of them, roughly by their
 * grids (lay-captures.ts) and finely by their own pixels (lay-finely.ts), and every measure looks at them together. One that
 * cannot be lined up is left out, with the reason. The rough part costs about the square of the number of captures.
 * @param pictureOf decodes a capture again, one at a time; without it there are no fine planes
 */
export async function compareCaptures(
  captures: readonly ToCompare[],
  pictureOf: (captureId: number) => Promise<Picture | null> = async () => null,
): Promise<Compared[]> {
  if (captures.length < 2)
    return captures.map(({ captureId }) => notCompared(captureId, "there is no other capture of this print to compare with"));
  const all = layCaptures(captures);
  const coarsely = all.filter((each) => "coarse" in each);
  if (coarsely.length < 2) return all.map((each) => notCompared(each.captureId, "refused" in each ? each.refused : NONE_LINED_UP));
  const laid = await layFinely(coarsely, pictureOf);
  const read = MEASURES_TOGETHER.map((measure) => measure.read(laid));
  return all.map((each) => {
    if ("refused" in each) return notCompared(each.captureId, each.refused);
    return { captureId: each.captureId, readings: read.flatMap((readings) => readings[coarsely.indexOf(each)] ?? []) };
  });
}

/** The answer for a capture that is not laid on the others. */
export const notCompared = (captureId: number, reason: string): Compared => ({
  captureId,
  readings: NAMES_TOGETHER.map((name) => ({ name, absent: reason })),
});
