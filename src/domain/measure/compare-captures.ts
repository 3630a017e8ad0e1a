import type { MeasureName } from "./catalogue.ts";
import { glareTogether } from "./glare-together.ts";
import { type Laid, layCaptures, NONE_LINED_UP, type ToCompare } from "./lay-captures.ts";
import type { Reading } from "./reading.ts";

/**
 * A measure by comparison. It is given two or more captures of one side of a print, laid on each other, and answers with
 * the readings of each, in the same order: each of its names once for each capture, present or absent.
 */
type MeasureTogether = {
  readonly names: readonly MeasureName[];
  readonly read: (laid: readonly Laid[]) => readonly (readonly Reading[])[];
};

const MEASURES_TOGETHER: readonly MeasureTogether[] = [{ names: ["glareAreaPercent"], read: glareTogether }];

/** Every measure that comparison answers, with or without a value. */
const NAMES_TOGETHER: readonly MeasureName[] = MEASURES_TOGETHER.flatMap(({ names }) => names);

export type Compared = { readonly captureId: number; readonly readings: readonly Reading[] };

/**
 * Reads what captures of one side of a print tell only beside each other: they are laid on one of them (see
 * lay-captures.ts), and every measure looks at them together. One that cannot be lined up is left out, with the reason.
 * Costs about the square of the number of captures.
 */
export function compareCaptures(captures: readonly ToCompare[]): Compared[] {
  if (captures.length < 2)
    return captures.map(({ captureId }) => notCompared(captureId, "there is no other capture of this print to compare with"));
  const all = layCaptures(captures);
  const laid = all.filter((each) => "coarse" in each);
  if (laid.length < 2) return all.map((each) => notCompared(each.captureId, "refused" in each ? each.refused : NONE_LINED_UP));
  const read = MEASURES_TOGETHER.map((measure) => measure.read(laid));
  return all.map((each) =>
    "refused" in each
      ? notCompared(each.captureId, each.refused)
      : { captureId: each.captureId, readings: read.flatMap((readings) => readings[laid.indexOf(each)] ?? []) },
  );
}

/** The answer for a capture that is not laid on the others. */
export const notCompared = (captureId: number, reason: string): Compared => ({
  captureId,
  readings: NAMES_TOGETHER.map((name) => ({ name, absent: reason })),
});
