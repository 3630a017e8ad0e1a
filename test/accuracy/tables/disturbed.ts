import { MEASURE_NAMES, MEASURES, type MeasureName } from "#domain/measure/catalogue.ts";
import { middleOf } from "../statistics.ts";
import type { ToldByName } from "../told.ts";
import { name, shown } from "./shown.ts";

/** What was told of one content without a defect and with it at its strongest. */
export type BeforeAfter = { readonly before: ToldByName; readonly after: ToldByName };

export type Disturbed = {
  /** readings that moved, as `name` before → after */
  readonly moved: readonly string[];
  readonly noLongerRead: readonly string[];
  readonly newlyRead: readonly string[];
  /** how many measures were looked at, and how many of them did not stay as they were */
  readonly looked: number;
  readonly count: number;
};

/** Of itself, that a reading may move and pass for unmoved. */
const SHARE = 1 / 20;

/**
 * What a defect that is not theirs does to readings. Each content is held against itself, so that what differs between contents hides
 * nothing: a reading counts as moved where more than half of the contents move it, all the same way, by more than a twentieth of itself
 * and a step of its last decimal.
 */
export function disturbedBy(
  own: readonly MeasureName[],
  contents: readonly BeforeAfter[],
  among: readonly MeasureName[] = MEASURE_NAMES,
): Disturbed {
  const looked = among.filter(
    (measure) => !own.includes(measure) && contents.some(({ before, after }) => before[measure] || after[measure]),
  );
  const most = contents.length / 2;
  const [moved, noLongerRead, newlyRead]: [string[], string[], string[]] = [[], [], []];
  for (const measure of looked) {
    const both = contents.flatMap(({ before: { [measure]: before }, after: { [measure]: after } }) =>
      before && after ? [[before.value, after.value] as const] : [],
    );
    const steps = both.map(([before, after]) => stepOf(measure, before, after));
    const lost = contents.filter(({ before, after }) => before[measure] && !after[measure]).length;
    const found = contents.filter(({ before, after }) => !before[measure] && after[measure]).length;
    if (lost > most) noLongerRead.push(name(measure));
    else if (found > most) newlyRead.push(name(measure));
    else if (steps.filter((step) => step > 0).length > most || steps.filter((step) => step < 0).length > most) {
      const [before, after] = [middleOf(both.map(([one]) => one)), middleOf(both.map(([, other]) => other))];
      moved.push(`${name(measure)} ${shown(measure, before)} → ${shown(measure, after)}`);
    }
  }
  return { moved, noLongerRead, newlyRead, looked: looked.length, count: moved.length + noLongerRead.length + newlyRead.length };
}

/** 1 where it rose, -1 where it fell, 0 where it stayed. Directions go the shorter way round. */
function stepOf(measure: MeasureName, before: number, after: number): number {
  const turn = measure === "focusFalloffDegrees" ? ((after - before + 540) % 360) - 180 : after - before;
  return Math.abs(turn) > Math.max(Math.abs(before) * SHARE, 10 ** -MEASURES[measure].decimals) ? Math.sign(turn) : 0;
}
