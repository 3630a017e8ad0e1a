import { type ClimateDay, FULL_DAY_SHARE, isFull } from "./days.ts";
import { DAY_SECONDS, type Figure, known, notKnown } from "./series.ts";

export type Quantity = "temperatureC" | "humidityPercent";

export type DailySwing = {
  readonly median: number;
  readonly largest: number;
  readonly largestOnSeconds: number;
  readonly dayCount: number;
};

/** Difference between the highest and the lowest reading of a day, over days that are covered well enough to tell. */
export function dailySwing(days: readonly ClimateDay[], quantity: Quantity): Figure<DailySwing> {
  const swings = days.flatMap((day) => {
    const of = day[quantity];
    return isFull(of) ? [{ swing: of.most - of.least, at: day.startSeconds }] : [];
  });
  const sorted = swings.toSorted((a, b) => a.swing - b.swing);
  const largest = sorted.at(-1);
  const middle = sorted[sorted.length >> 1];
  if (!largest || !middle) return notKnown(`No day has readings for ${Math.round(FULL_DAY_SHARE * 100)} % of its hours.`);
  return known({ median: middle.swing, largest: largest.swing, largestOnSeconds: largest.at, dayCount: sorted.length });
}

export type SeasonalSwing = { readonly swing: number; readonly leastMonth: number; readonly mostMonth: number };

/** Days that a month of the year must have readings on, for its mean to stand for it (own rule). */
const MONTH_DAYS = 15;

/** Difference between the highest and the lowest mean of a month of the year (1 to 12); it needs every month. */
export function seasonalSwing(days: readonly ClimateDay[], quantity: Quantity): Figure<SeasonalSwing> {
  const means = Array.from({ length: 12 }, (_, index) => {
    const ofMonth = days.filter(({ startSeconds }) => new Date(startSeconds * 1000).getUTCMonth() === index);
    const full = ofMonth.map((day) => day[quantity]).filter(isFull);
    return full.length < MONTH_DAYS ? null : full.reduce((sum, { mean }) => sum + mean, 0) / full.length;
  });
  const missing = means.filter((mean) => mean === null).length;
  if (missing > 0) return notKnown(`It takes all twelve months with at least ${MONTH_DAYS} days of readings each; ${missing} are missing.`);
  const told = means.map((mean) => mean ?? 0);
  const [least, most] = [Math.min(...told), Math.max(...told)];
  return known({ swing: most - least, leastMonth: told.indexOf(least) + 1, mostMonth: told.indexOf(most) + 1 });
}

export const dayInIso = (startSeconds: number): string =>
  new Date(Math.floor(startSeconds / DAY_SECONDS) * DAY_SECONDS * 1000).toISOString().slice(0, 10);
