import { expect, test } from "vitest";
import { effort, minutesBetweenPrints } from "#domain/plan/time-and-cost.ts";

const day = (...minutes: number[]) => minutes.map((minute) => new Date(Date.UTC(2026, 4, 3, 9, minute)).toISOString());

test("hours are setting up and each print; the price is shared out and the work added", () => {
  const whole = effort({ prints: 40, minutesPerPrint: 3, minutesToSetUp: 30, price: 200, pricePerHour: 20 });
  expect(whole.hours).toBe(2.5);
  expect(whole.costOfAll).toBe(250);
  expect(whole.costPerPrint).toBe(6.25);
  expect(whole.leftOut).toBeNull();
});

test("where nobody said a price there is no cost, rather than one of nothing", () => {
  expect(effort({ prints: 40, minutesPerPrint: 3, minutesToSetUp: 0, price: null, pricePerHour: null }).costPerPrint).toBeNull();
});

test("minutes between prints are the median step; a pause at noon does not count", () => {
  expect(minutesBetweenPrints(day(0, 2, 4, 7, 9, 11, 90, 92))).toEqual({ minutes: 2, steps: 6 });
});

test("too few prints tell no pace", () => {
  expect(minutesBetweenPrints(day(0, 2, 4))).toBeNull();
});

test("a sum that leaves a price out says which", () => {
  const of = { prints: 10, minutesPerPrint: 6, minutesToSetUp: 0 };
  expect(effort({ ...of, price: 100, pricePerHour: null })).toMatchObject({ costOfAll: 100, leftOut: "work" });
  expect(effort({ ...of, price: null, pricePerHour: 20 })).toMatchObject({ costOfAll: 20, leftOut: "equipment" });
});
