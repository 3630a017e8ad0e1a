import { type ClimateDay, FULL_DAY_SHARE, isFull } from "./days.ts";
import { type Figure, known, notKnown } from "./series.ts";

export const MOULD_SOURCE =
  "A. Hukka and H. A. Viitanen, A mathematical model of mould growth on wooden material, Wood Science and Technology 33, 1999, 475-485";

/**
 * The relative humidity in % from which mould can grow at a temperature, on wood, which feeds it well:
 * -0.00267 T^3 + 0.160 T^2 - 3.13 T + 100 up to 20 °C, 80 above. Null outside 0 to 50 °C, where the model says that none grows.
 * Source: MOULD_SOURCE (formula from memory). Gelatin and paper may differ: a day of risk is a hint to look, not mould.
 */
export function mouldThresholdPercent(temperatureC: number): number | null {
  if (temperatureC < 0 || temperatureC > 50) return null;
  if (temperatureC > 20) return 80;
  return Math.min(100, -0.00267 * temperatureC ** 3 + 0.16 * temperatureC ** 2 - 3.13 * temperatureC + 100);
}

export type MouldRisk = { readonly riskDays: number; readonly longestRun: number; readonly toldDays: number };

/** Days whose mean humidity reaches the threshold at their mean temperature, of the days that are covered well enough to tell. */
export function mouldRisk(days: readonly ClimateDay[]): Figure<MouldRisk> {
  let riskDays = 0;
  let toldDays = 0;
  let run = 0;
  let longestRun = 0;
  let before = Number.NaN;
  for (const { startSeconds, temperatureC, humidityPercent } of days) {
    if (startSeconds - before !== 86_400) run = 0;
    before = startSeconds;
    if (!isFull(temperatureC) || !isFull(humidityPercent)) {
      run = 0;
      continue;
    }
    toldDays++;
    const threshold = mouldThresholdPercent(temperatureC.mean);
    const isRisk = threshold !== null && humidityPercent.mean >= threshold;
    run = isRisk ? run + 1 : 0;
    if (isRisk) riskDays++;
    longestRun = Math.max(longestRun, run);
  }
  if (toldDays === 0) return notKnown(`No day has readings of both for ${Math.round(FULL_DAY_SHARE * 100)} % of its hours.`);
  return known({ riskDays, longestRun, toldDays });
}
