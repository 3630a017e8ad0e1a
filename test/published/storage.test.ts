import { expect, test } from "vitest";
import { mouldThresholdPercent } from "#domain/storage/climate/mould.ts";
import { climateLimitOf } from "#domain/storage/climate/published-limits.ts";
import { humidityRatio, RATE_BASIS, rateRatio, steadyTemperatureC } from "#domain/storage/climate/reaction-rate.ts";
import { lightBudgetOf, lightDose } from "#domain/storage/light-budget.ts";

test("O. Levenspiel, Chemical Reaction Engineering, 3rd ed. 1999, example 2.3 (from memory): milk kept 30 min at 63 °C or 15 s at 74 °C has E = 422 000 J/mol", () => {
  // 30 min / 15 s = 120; the book rounds the energy to three figures
  expect(rateRatio(74, 63, 422_000)).toBeGreaterThan(118);
  expect(rateRatio(74, 63, 422_000)).toBeLessThan(122);
});

test("OpenStax, Chemistry 2e, example 12.13 (from memory): hydrogen iodide, 3.52e-7 at 555 K and 3.95e-2 at 781 K have 185 000 J/mol", () => {
  const ratio = (energy: number) => rateRatio(781 - 273.15, 555 - 273.15, energy);
  // the book rounds the energy to three figures
  expect(ratio(184_500)).toBeLessThan(3.95e-2 / 3.52e-7);
  expect(ratio(185_500)).toBeGreaterThan(3.95e-2 / 3.52e-7);
});

test("T. L. Brown and others, Chemistry: The Central Science, sample exercise on methyl isonitrile (from memory): 1.6e2 kJ/mol and 2.52e-5 at 462.9 K give 1.0e-6 at 430.0 K", () => {
  const rate = 2.52e-5 * rateRatio(430 - 273.15, 462.9 - 273.15, 160_000);
  expect(Number(rate.toPrecision(2))).toBeCloseTo(1.0e-6, 7);
});

test("S. Michalski, ICOM-CC 2002: at room temperature life doubles for each five degrees less, with about 100 kJ/mol", () => {
  const longer = 1 / rateRatio(15, 20, RATE_BASIS.activationEnergyJPerMol);
  expect(longer).toBeGreaterThan(1.9);
  expect(longer).toBeLessThan(2.2);
});

test("S. Michalski, ICOM-CC 2002: life more than doubles for each halving of relative humidity", () => {
  expect(1 / humidityRatio(25, 50, RATE_BASIS.humidityPower)).toBeGreaterThan(2);
  expect(1 / humidityRatio(25, 50, RATE_BASIS.humidityPower)).toBeLessThan(3);
});

test("ICH Q1A mean kinetic temperature (J. D. Haynes, J. Pharm. Sci. 60, 1971): with 83.144 kJ/mol, half the time at 20 and half at 30 °C is as a steady 26.26 °C", () => {
  // dH/R = 10 000 K exactly: 10000 / -ln((exp(-10000/293.15) + exp(-10000/303.15)) / 2) - 273.15, 26.259886916 worked out with 30 decimal digits in another language
  const mean = (1 + rateRatio(30, 20, 83_144.62618)) / 2;
  expect(steadyTemperatureC(mean, 20, 83_144.62618)).toBeCloseTo(26.259886916, 6);
});

test("A. Hukka and H. A. Viitanen 1999: mould needs 80 % above 20 °C, where both branches meet, and more in the cold", () => {
  expect(mouldThresholdPercent(25)).toBe(80);
  expect(mouldThresholdPercent(20)).toBeCloseTo(80, 0);
  expect(mouldThresholdPercent(0)).toBe(100);
  expect(mouldThresholdPercent(5)).toBeGreaterThan(85);
});

test("ISO 18920:2011 through the Image Permanence Institute's newsletter 11: inkjet and dye-sublimation, 2 °C at 30 to 50 % or 5 °C at 30 to 40 %", () => {
  const figures = [
    { leastC: null, mostC: 2, leastPercent: 30, mostPercent: 50 },
    { leastC: null, mostC: 5, leastPercent: 30, mostPercent: 40 },
  ];
  for (const process of ["inkjet", "dye-sublimation"]) expect(climateLimitOf(process).allowed).toEqual(figures);
});

test("Library of Congress, Care of Photographs: photographs in general 30 to 40 %, contemporary colour 4 °C or below", () => {
  expect(climateLimitOf("not-known").allowed[0]).toMatchObject({ leastPercent: 30, mostPercent: 40 });
  expect(climateLimitOf("chromogenic").allowed[0]?.mostC).toBe(4);
});

test("J. M. Reilly 1982: albumen below 18 °C at 30 to 40 %", () => {
  expect(climateLimitOf("albumen").allowed).toEqual([{ leastC: null, mostC: 18, leastPercent: 30, mostPercent: 40 }]);
});

test("S. Wagner and others 2001: very sensitive prints 50 000 lux hours a year, such as 50 lux, 10 hours a day, three months", () => {
  const budget = lightBudgetOf("integral-instant-colour");
  expect(budget.luxHoursAYear).toBe(50_000);
  const shown = (startsOn: string, endsOn: string) =>
    lightDose([{ id: 1, printId: 1, startsOn, endsOn, lux: 50, hoursPerDay: 10, glazing: "none", note: null }], budget, "2026-12-31");
  // April to June: 91 days of 500 lux hours
  expect(shown("2026-04-01", "2026-06-30")).toMatchObject({ luxHoursThisYear: 45_500, shareOfYear: 0.91 });
  expect(shown("2026-04-01", "2026-07-31").shareOfYear).toBeGreaterThan(1);
});
