import { expect, test } from "vitest";
import { ControlChart } from "#views/parts/control-chart.tsx";

const shown = (numbers: readonly number[], more: { bound?: "lower"; leftOut?: number } = {}) =>
  String(
    <ControlChart
      measure="colourAccuracyMeanDeltaE"
      values={numbers.map((value, index) => ({ day: `2026-0${index + 1}-01`, value }))}
      bound={more.bound ?? null}
      leftOut={more.leftOut ?? 0}
      most={4}
      least={null}
    />,
  ).replaceAll(/\s+/g, " ");

test("drift is said in words: moved with what to look for, steady with what was expected, too few with how many there are", () => {
  // earlier: mean 2, moving ranges all 0.2, so 2 ± 3 · 0.2 / 1.128 = 1.47 to 2.53 (NIST/SEMATECH e-Handbook 6.3.2.2)
  const earlier = [2.1, 1.9, 2.1, 1.9, 2.1, 1.9];
  expect(shown([...earlier, 3.4])).toMatch(/3\.4[^:]*: it has moved\. Earlier checks let one expect 1\.5[^t]* to 2\.5/);
  expect(shown([...earlier, 2.4])).toMatch(/2\.4[^:]*: steady, within what earlier checks let one expect/);
  expect(shown([2, 2.2])).toContain("Five earlier checks tell what is usual; there are 1.");
});

test("bounds are told as bounds, and checks that cannot be set beside them as left out", () => {
  expect(shown([2, 2.2], { bound: "lower" })).toContain("at least 2.2");
  expect(shown([2, 2.2], { leftOut: 1 })).toContain("1 check that cannot be set beside these is left out.");
});
