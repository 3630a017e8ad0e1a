import { expect, test } from "vitest";
import { driftOf, individualLimits } from "#domain/target/drift.ts";

/** NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, flowrate example (from memory): mean 50.81, limits 45.8159 and 55.8041. */
const FLOWRATES = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
const checks = (values: readonly number[]) =>
  values.map((value, index) => ({ day: `2026-01-${String(index + 1).padStart(2, "0")}`, value }));

test("natural limits of single values are those of the NIST handbook's example", () => {
  const { mean, low, high } = individualLimits(FLOWRATES);
  expect(mean).toBeCloseTo(50.81, 10);
  expect(low).toBeCloseTo(45.8159, 3);
  expect(high).toBeCloseTo(55.8041, 3);
});

test("a check inside what the earlier ones let expect is steady, one outside has moved", () => {
  expect(driftOf(checks([...FLOWRATES, 54]))?.state).toBe("steady");
  expect(driftOf(checks([...FLOWRATES, 57]))?.state).toBe("moved");
  expect(driftOf(checks([...FLOWRATES, 45]))?.state).toBe("moved");
});

test("a first check and a few of them claim no limits", () => {
  expect(driftOf([])).toBeNull();
  expect(driftOf(checks([3]))?.state).toBe("first");
  expect(driftOf(checks([3, 3.1, 9]))).toMatchObject({ state: "too few", limits: null });
});

test("what is out of its limits by less than matters has not moved", () => {
  const still = checks([2, 2, 2, 2, 2, 2, 2.04]);
  expect(driftOf(still)?.state).toBe("moved");
  expect(driftOf(still, 0.1)?.state).toBe("steady");
  expect(driftOf(checks([2, 2, 2, 2, 2, 2, 2.2]), 0.1)?.state).toBe("moved");
});
