import { type ClimateSeries, DAY_SECONDS, type Figure, heldSeconds, known, notKnown } from "./series.ts";

/** J/(mol K), CODATA 2018 */
const GAS_CONSTANT = 8.314462618;
const ZERO_C = 273.15;

/**
 * How fast materials age in a climate against another one.
 * Activation energy of 100 kJ/mol, and the power 1.3 of the relative humidity: S. Michalski, Double the life for each five-degree
 * drop, more than double the life for each halving of relative humidity, ICOM-CC 13th Triennial Meeting, Rio de Janeiro 2002, I,
 * 66-72 (the formula was read; the two figures for unstable dyes and papers there through later works that cite it).
 */
export const RATE_BASIS = {
  activationEnergyJPerMol: 100_000,
  humidityPower: 1.3,
  referenceC: 20,
  referencePercent: 50,
  source:
    "S. Michalski, Double the life for each five-degree drop, more than double the life for each halving of relative humidity, ICOM-CC, Rio de Janeiro 2002",
} as const;

/**
 * Rate of a reaction at one temperature as a multiple of that at another: exp(-E/R (1/T - 1/T0)), temperatures in K.
 * (Arrhenius)
 */
export function rateRatio(temperatureC: number, referenceC: number, activationEnergyJPerMol: number): number {
  return Math.exp((-activationEnergyJPerMol / GAS_CONSTANT) * (1 / (temperatureC + ZERO_C) - 1 / (referenceC + ZERO_C)));
}

/** Effect of humidity on the rate: (RH / RH0)^n. */
export const humidityRatio = (humidityPercent: number, referencePercent: number, power: number): number =>
  (humidityPercent / referencePercent) ** power;

export type ReactionRate = {
  /** times the rate of the reference climate, by temperature alone */
  readonly byTemperature: number;
  /** the same with humidity; null where too little humidity is known */
  readonly byBoth: number | null;
  /** the steady temperature at which things would age as fast, by temperature alone (mean kinetic temperature) */
  readonly steadyC: number;
  readonly coveredDays: number;
};

/** Less says nothing of how a place is (own rule). */
const LEAST_DAYS = 7;

/**
 * The mean of the rate over time, not the rate of the mean: warm hours count for more than cool ones give back.
 * Times without readings are left out, not counted as good; `coveredDays` says how much was in.
 */
export function reactionRate(series: ClimateSeries, held = heldSeconds(series)): Figure<ReactionRate> {
  const { activationEnergyJPerMol, humidityPower, referenceC, referencePercent } = RATE_BASIS;
  let seconds = 0;
  let sum = 0;
  let bothSeconds = 0;
  let bothSum = 0;
  for (let i = 0; i < held.length; i++) {
    const temperature = series.temperatureC[i] ?? Number.NaN;
    if (Number.isNaN(temperature)) continue;
    const holds = held[i] ?? 0;
    const rate = rateRatio(temperature, referenceC, activationEnergyJPerMol);
    seconds += holds;
    sum += rate * holds;
    const humidity = series.humidityPercent[i] ?? Number.NaN;
    if (Number.isNaN(humidity)) continue;
    bothSeconds += holds;
    bothSum += rate * humidityRatio(humidity, referencePercent, humidityPower) * holds;
  }
  const coveredDays = seconds / DAY_SECONDS;
  if (coveredDays < LEAST_DAYS)
    return notKnown(`It takes ${LEAST_DAYS} days of temperature readings; there are ${coveredDays.toFixed(1)} in this stretch.`);
  const byTemperature = sum / seconds;
  return known({
    byTemperature,
    byBoth: bothSeconds / DAY_SECONDS < LEAST_DAYS ? null : bothSum / bothSeconds,
    steadyC: steadyTemperatureC(byTemperature, referenceC, activationEnergyJPerMol),
    coveredDays,
  });
}

/** The temperature that has this rate: the inverse of `rateRatio`. */
export const steadyTemperatureC = (ratio: number, referenceC: number, activationEnergyJPerMol: number): number =>
  1 / (1 / (referenceC + ZERO_C) - (GAS_CONSTANT * Math.log(ratio)) / activationEnergyJPerMol) - ZERO_C;
