import type { MeasureName } from "#domain/measure/catalogue.ts";
import { middleOf, rankCorrelation } from "../statistics.ts";
import type { Told } from "../told.ts";

/** A reading beside its truth. */
export type Pair = { readonly level: number; readonly truth: number | null; readonly told: Told | undefined };

/** How a measure followed a ladder, or several captures of one. */
export type Followed = {
  readonly measure: MeasureName;
  readonly defect: string;
  /** Spearman's, of reading and truth, or level where no figure is true; NaN where one of them never changes */
  readonly correlation: number;
  readonly middleError: number;
  readonly worstError: number;
  /** of those with an uncertainty and no bound, how many lie within twice of it */
  readonly within: number;
  readonly withSpread: number;
  readonly absent: number;
  readonly all: number;
};

export function followedBy(measure: MeasureName, defect: string, pairs: readonly Pair[]): Followed {
  const read = pairs.filter((pair): pair is Pair & { told: Told } => pair.told !== undefined);
  const errors = read.map(errorOf).filter((error) => error !== null);
  const hasTruth = pairs.some(({ truth }) => truth !== null);
  const ranked = read.flatMap(({ level, truth, told }) => {
    const against = hasTruth ? truth : level;
    return against === null ? [] : [[against, told.value] as const];
  });
  const spread = read.filter(({ told, truth }) => told.spread !== undefined && told.bound === undefined && truth !== null);
  return {
    measure,
    defect,
    correlation: rankCorrelation(ranked),
    middleError: middleOf(errors),
    worstError: errors.length > 0 ? Math.max(...errors) : Number.NaN,
    within: spread.filter((pair) => (errorOf(pair) as number) <= 2 * (pair.told.spread as number)).length,
    withSpread: spread.length,
    absent: pairs.length - read.length,
    all: pairs.length,
  };
}

/** Distance from the truth; null where there is none. A lower bound below the truth is told as it is: how far it falls short. */
export const errorOf = ({ truth, told }: Pair): number | null => (truth === null || !told ? null : Math.abs(told.value - truth));
