import { climateDays } from "./days.ts";
import { type MouldRisk, mouldRisk } from "./mould.ts";
import { type ClimateLimit, climateLimitOf } from "./published-limits.ts";
import { type ReactionRate, reactionRate } from "./reaction-rate.ts";
import { type ClimateSeries, coveredShare, type Figure, heldSeconds, known, notKnown } from "./series.ts";
import { type DailySwing, dailySwing, type SeasonalSwing, seasonalSwing } from "./swing.ts";
import { type TimeOutside, timeOutside } from "./time-outside.ts";

/** One published limit and the processes that are held against it here. */
export type AgainstLimit = { readonly limit: ClimateLimit; readonly processIds: readonly string[]; readonly time: Figure<TimeOutside> };

/** Every figure of a place's climate in a stretch of time. */
export type PlaceClimate = {
  readonly coveredShare: number;
  readonly againstLimits: readonly AgainstLimit[];
  readonly dailyTemperature: Figure<DailySwing>;
  readonly dailyHumidity: Figure<DailySwing>;
  readonly seasonalTemperature: Figure<SeasonalSwing>;
  readonly seasonalHumidity: Figure<SeasonalSwing>;
  readonly rate: Figure<ReactionRate>;
  readonly mould: Figure<MouldRisk>;
};

/** @param processIds of the prints whose climate this is; none asks for photographs in general */
export function placeClimate(series: ClimateSeries, processIds: readonly string[]): PlaceClimate {
  const held = heldSeconds(series);
  const days = climateDays(series, held);
  const nothing = series.atSeconds.length === 0 ? notKnown("There is no reading in this stretch of time.") : null;
  return {
    coveredShare: coveredShare(series, held),
    againstLimits: limitsOf(processIds).map(({ limit, processIds: ids }) => ({
      limit,
      processIds: ids,
      time: nothing ?? known(timeOutside(series, limit, held)),
    })),
    dailyTemperature: nothing ?? dailySwing(days, "temperatureC"),
    dailyHumidity: nothing ?? dailySwing(days, "humidityPercent"),
    seasonalTemperature: nothing ?? seasonalSwing(days, "temperatureC"),
    seasonalHumidity: nothing ?? seasonalSwing(days, "humidityPercent"),
    rate: nothing ?? reactionRate(series, held),
    mould: nothing ?? mouldRisk(days),
  };
}

/** Processes with the same limit share a line. */
function limitsOf(processIds: readonly string[]): { limit: ClimateLimit; processIds: string[] }[] {
  const lines: { limit: ClimateLimit; processIds: string[] }[] = [];
  for (const id of processIds.length === 0 ? ["not-known"] : processIds) {
    const limit = climateLimitOf(id);
    const line = lines.find((each) => each.limit === limit);
    if (line) line.processIds.push(id);
    else lines.push({ limit, processIds: processIds.length === 0 ? [] : [id] });
  }
  return lines;
}
