import { expect, test } from "vitest";
import { killAtRandomMoments } from "./kill-nine.ts";

test("an intake killed at any moment and started again has every file once, whole and measured, and every print judged", {
  timeout: 180_000,
}, async () => {
  const moments = [0.15, 0.5, 0.85];
  const report = await killAtRandomMoments(moments.length, () => moments.shift() ?? 0.5);
  expect(report.problems).toEqual([]);
  expect(report.killedInTime, "a kill after the end would prove nothing").toBeGreaterThan(0);
});
