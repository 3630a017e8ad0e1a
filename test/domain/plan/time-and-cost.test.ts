import { expect, test } from "vitest";
import { effort, minutesBetweenCaptures } from "#domain/plan/time-and-cost.ts";

const day = (...minutes: number[]) => minutes.map((minute) => new Date(Date.UTC(2026, 4, 3, 9, minute)).toISOString());

test("hours are setting up and each print; the price is shared out and the work added", () => {
  const whole = effort({ prints: 40, minutesPerPrint: 3, minutesToSetUp: 30, price: 200, pricePerHour: 20 });
  expect(whole.hours).toBe(2.5);
  expect(whole.costOfAll).toBe(250);
  expect(whole.costPerPrint).toBe(6.25);
});

test("where nobody said a price there is no cost, rather than one of nothing", () => {
  expect(effort({ prints: 40, minutesPerPrint: 3, minutesToSetUp: 0, price: null, pricePerHour: null }).costPerPrint).toBeNull();
});

test("minutes between captures are the median step; a pause at noon does not count", () => {
  expect(minutesBetweenCaptures(day(0, 2, 4, 7, 9, 11, 90, 92))).toEqual({ minutes: 2, steps: 6 });
});

test("too few captures tell no pace", () => {
  expect(minutesBetweenCaptures(day(0, 2, 4))).toBeNull();
});
