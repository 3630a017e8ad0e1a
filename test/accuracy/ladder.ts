import type { MeasureName } from "#domain/measure/catalogue.ts";
import { type MeasuredCapture, measureCapture } from "#domain/measure/measure-capture.ts";
import { isPresent } from "#domain/measure/reading.ts";
import type { CapturedSheet } from "../fixtures/captured-sheet.ts";

/** What was drawn, without its outline: measuring must find the print by itself. */
export type Drawn = Pick<CapturedSheet, "picture" | "context">;

/** One defect from none to strong, drawn in several contents. */
export type Ladder = {
  /** the defect in a few words, e.g. "streaks along the transport" */
  readonly defect: string;
  /** what is read, and the truth at a level, of a seed's content where it hangs on that; NaN where there is no true figure */
  readonly reads: readonly { readonly measure: MeasureName; readonly truth: (level: number, seed: number) => number }[];
  /** strength, none first, strongest last, in the unit that `levelUnit` names */
  readonly levels: readonly number[];
  readonly levelUnit: string;
  /** a seed decides the content, the noise and the pose */
  readonly draw: (level: number, seed: number) => Drawn;
};

export type Rung = { readonly level: number; readonly seed: number; readonly measured: MeasuredCapture };

/** Measures a ladder whole, as the program would. */
export function climb(ladder: Ladder, seeds: readonly number[], levels: readonly number[] = ladder.levels): Rung[] {
  return levels.flatMap((level) =>
    seeds.map((seed) => {
      const { picture, context } = ladder.draw(level, seed);
      return { level, seed, measured: measureCapture(picture, context) };
    }),
  );
}

/** The value read of a measure; NaN where it is absent. */
export function readValue({ readings }: MeasuredCapture, measure: MeasureName): number {
  const reading = readings.find(({ name }) => name === measure);
  return reading && isPresent(reading) ? reading.value : Number.NaN;
}
