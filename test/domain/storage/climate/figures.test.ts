import { expect, test } from "vitest";
import { climateDays } from "#domain/storage/climate/days.ts";
import { mouldRisk, mouldThresholdPercent } from "#domain/storage/climate/mould.ts";
import { placeClimate } from "#domain/storage/climate/place-climate.ts";
import { climateLimitOf, limitInWords } from "#domain/storage/climate/published-limits.ts";
import { rateRatio, reactionRate } from "#domain/storage/climate/reaction-rate.ts";
import { type ClimateSeries, coveredShare, heldSeconds } from "#domain/storage/climate/series.ts";
import { dailySwing, seasonalSwing } from "#domain/storage/climate/swing.ts";
import { timeOutside } from "#domain/storage/climate/time-outside.ts";

const HOUR = 3600;
const DAY = 24 * HOUR;

/** Hourly readings from the epoch on; null leaves the hour out. */
function hourly(hours: number, at: (hour: number) => readonly [number, number] | null, toSeconds = hours * HOUR): ClimateSeries {
  const told = Array.from({ length: hours }, (_, hour) => ({ hour, reading: at(hour) })).filter(({ reading }) => reading !== null);
  return {
    fromSeconds: 0,
    toSeconds,
    atSeconds: Float64Array.from(told, ({ hour }) => hour * HOUR),
    temperatureC: Float32Array.from(told, ({ reading }) => reading?.[0] ?? Number.NaN),
    humidityPercent: Float32Array.from(told, ({ reading }) => reading?.[1] ?? Number.NaN),
  };
}

const silver = climateLimitOf("gelatin-silver");

test("a reading speaks until the next one, and for one usual distance before a gap", () => {
  const series = hourly(10, (hour) => (hour >= 4 && hour < 8 ? null : [18, 40]));
  expect([...heldSeconds(series)]).toEqual([HOUR, HOUR, HOUR, HOUR, HOUR, HOUR]);
  expect(coveredShare(series)).toBeCloseTo(0.6, 6);
});

test("times without readings are neither inside nor outside the limit", () => {
  // 20 hours asked for: 4 good, 4 too warm, 2 without humidity, 10 nothing
  const series = hourly(10, (hour) => (hour < 4 ? [17, 40] : hour < 8 ? [25, 40] : [17, Number.NaN]), 20 * HOUR);
  const time = timeOutside(series, silver);
  expect(time.insideShare).toBeCloseTo(0.2, 6);
  expect(time.outsideShare).toBeCloseTo(0.2, 6);
  expect(time.unknownShare).toBeCloseTo(0.6, 6);
  expect(time.longest).toEqual({ fromSeconds: 4 * HOUR, seconds: 4 * HOUR });
});

test("a gap ends an excursion, and too warm is outside even where the humidity is missing", () => {
  const series = hourly(10, (hour) => (hour === 5 || hour === 6 || hour === 7 ? null : [30, Number.NaN]));
  const { outsideShare, longest } = timeOutside(series, silver);
  expect(outsideShare).toBeCloseTo(0.7, 6);
  expect(longest).toEqual({ fromSeconds: 0, seconds: 5 * HOUR });
});

test("a limit is said in words", () => {
  expect(limitInWords(silver)).toBe("at most 18 °C at 30 to 50 %");
  expect(limitInWords(climateLimitOf("inkjet"))).toBe("at most 2 °C at 30 to 50 %, or at most 5 °C at 30 to 40 %");
});

test("a limit with two climates holds where either of them does", () => {
  const inkjet = climateLimitOf("inkjet");
  const shares = (temperature: number, humidity: number) =>
    timeOutside(
      hourly(5, () => [temperature, humidity]),
      inkjet,
    ).outsideShare;
  expect([shares(2, 45), shares(4.5, 35), shares(4.5, 45), shares(6, 35)]).toEqual([0, 0, 1, 1]);
});

test("the daily swing is that of days that are covered, with the largest one named", () => {
  const series = hourly(72, (hour) => (hour >= 48 && hour < 66 ? null : [hour < 24 ? 18 + (hour % 2) : 18 + 3 * (hour % 2), 40]));
  const swing = dailySwing(climateDays(series), "temperatureC");
  expect(swing).toMatchObject({ known: true, value: { dayCount: 2, largest: 3, largestOnSeconds: DAY } });
});

test("the seasonal swing is absent without every month, and else the difference of monthly means", () => {
  expect(seasonalSwing(climateDays(hourly(24 * 200, () => [18, 40])), "temperatureC")).toMatchObject({ known: false });
  const year = hourly(24 * 365, (hour) => [hour < 31 * 24 ? 10 : 20, 40]);
  expect(seasonalSwing(climateDays(year), "temperatureC")).toMatchObject({ known: true, value: { swing: 10, leastMonth: 1 } });
});

test("the mean of the rate is larger than the rate of the mean, and a steady reference climate rates 1", () => {
  const steady = reactionRate(hourly(24 * 10, () => [20, 50]));
  expect(steady).toMatchObject({ known: true });
  if (!steady.known) return;
  expect(steady.value.byTemperature).toBeCloseTo(1, 9);
  expect(steady.value.byBoth).toBeCloseTo(1, 9);
  const swinging = reactionRate(hourly(24 * 10, (hour) => [hour % 2 === 0 ? 10 : 30, 50]));
  if (!swinging.known) throw new Error("absent");
  const byHand = (rateRatio(10, 20, 100_000) + rateRatio(30, 20, 100_000)) / 2;
  expect(swinging.value.byTemperature).toBeCloseTo(byHand, 6);
  expect(swinging.value.byTemperature).toBeGreaterThan(2);
  expect(rateRatio(swinging.value.steadyC, 20, 100_000)).toBeCloseTo(byHand, 6);
});

test("a few days say nothing of the rate", () => {
  expect(reactionRate(hourly(24 * 3, () => [20, 50]))).toMatchObject({ known: false });
});

test("mould days are counted only where a day is covered, with the longest run", () => {
  const series = hourly(24 * 5, (hour) => (hour >= 72 && hour < 84 ? null : [22, hour < 48 || hour >= 96 ? 85 : 60]));
  expect(mouldRisk(climateDays(series))).toEqual({ known: true, value: { riskDays: 3, longestRun: 2, toldDays: 4 } });
  expect(mouldThresholdPercent(-1)).toBeNull();
});

test("no reading gives no figure, and says so", () => {
  const climate = placeClimate(
    hourly(0, () => null, DAY),
    ["inkjet", "chromogenic"],
  );
  expect(climate.coveredShare).toBe(0);
  const figures = [
    climate.rate,
    climate.mould,
    climate.dailyTemperature,
    climate.seasonalHumidity,
    ...climate.againstLimits.map(({ time }) => time),
  ];
  for (const figure of figures) expect(figure).toMatchObject({ known: false, reason: "There is no reading in this stretch of time." });
});

test("processes with one limit share a line, and a place without prints is held against photographs in general", () => {
  const series = hourly(5, () => [18, 35]);
  expect(placeClimate(series, ["chromogenic", "dye-transfer", "inkjet"]).againstLimits.map(({ processIds }) => processIds)).toEqual([
    ["chromogenic", "dye-transfer"],
    ["inkjet"],
  ]);
  expect(placeClimate(series, []).againstLimits[0]?.limit.id).toBe("photographs-in-general");
});
