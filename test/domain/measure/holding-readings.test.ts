import { expect, test } from "vitest";
import { holdingReadings } from "#domain/measure/holding-readings.ts";
import type { Reading } from "#domain/measure/reading.ts";

const name = "evennessPercent";
const ABSENT: Reading = { name, absent: "nothing to see" };
const value = (given: number, rest: Partial<Extract<Reading, { value: number }>> = {}): Reading => ({
  name,
  value: given,
  reliability: "fair",
  ...rest,
});
const held = (alone: Reading, together: Reading) => holdingReadings([alone], [together]);

test("a comparison takes the place of what one capture told", () => {
  expect(held(value(1), value(2))).toEqual([value(2)]);
  expect(held(ABSENT, value(2, { reliability: "weak" }))).toEqual([value(2, { reliability: "weak" })]);
  expect(held(value(1, { reliability: "weak" }), value(2, { bound: "lower" }))).toEqual([value(2, { bound: "lower" })]);
  expect(held(value(1, { bound: "upper" }), value(2, { bound: "lower" }))).toEqual([value(2, { bound: "lower" })]);
});

test("a comparison that tells less gives way: one that came to nothing, a weak one, one that is only a bound", () => {
  expect(held(value(1), ABSENT)).toEqual([value(1)]);
  expect(held(value(1), value(2, { reliability: "weak" }))).toEqual([value(1)]);
  expect(held(value(1), value(2, { bound: "lower" }))).toEqual([value(1)]);
});

test("a comparison to be relied on less gives way, one to be relied on more does not", () => {
  const bound = { bound: "lower" } as const;
  const [fair, firm] = [value(1, { ...bound, reliability: "fair" }), value(2, { ...bound, reliability: "firm" })];
  expect(held(firm, fair)).toEqual([firm]);
  expect(held(fair, firm)).toEqual([firm]);
});

test("each measure is held once, and where neither tells, the comparison's reason", () => {
  const other: Reading = { name, absent: "not lined up" };
  expect(held(ABSENT, other)).toEqual([other]);
});

test("of two lower bounds of the strongest glare the larger holds, be it of the border or by comparison, but never a weak one", () => {
  const peak = (given: number, reliability: "weak" | "fair" | "firm"): Reading => ({
    name: "glarePeakDeltaL",
    value: given,
    reliability,
    bound: "lower",
  });
  const [border, compared] = [peak(11, "firm"), peak(45, "fair")];
  expect(held(border, compared)).toEqual([compared]);
  expect(held(border, peak(0, "firm"))).toEqual([border]);
  expect(held(border, peak(45, "weak"))).toEqual([border]);
  expect(held(peak(60, "weak"), compared)).toEqual([compared]);
});

test("a direction of fall-off comes from where its amount comes from", () => {
  const percent = (given: number, rest = {}): Reading => ({ name: "focusFalloffPercent", value: given, reliability: "fair", ...rest });
  const degrees = (given: number): Reading => ({ name: "focusFalloffDegrees", value: given, reliability: "firm" });
  const none: Reading = { name: "focusFalloffDegrees", absent: "too little" };
  const bound = { bound: "lower" };
  expect(holdingReadings([percent(1), none], [percent(40, bound), degrees(90)])).toEqual([percent(1), none]);
  expect(holdingReadings([percent(30, { reliability: "weak" }), degrees(10)], [percent(3, bound), none])).toEqual([
    percent(3, bound),
    none,
  ]);
});
