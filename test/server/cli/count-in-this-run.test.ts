import { expect, test } from "vitest";
import { countInThisRun } from "#server/cli/work-to-the-end.ts";

test("work that was done before the run and is asked for again counts from there, never below nothing", () => {
  const standing = { waiting: 0, running: 0, done: 25, failed: 0 };
  const now = countInThisRun(() => standing);
  expect(now()).toEqual({ open: 0, settled: 0 });
  Object.assign(standing, { done: 24, waiting: 1 });
  expect(now()).toEqual({ open: 1, settled: 0 });
  Object.assign(standing, { waiting: 0, running: 1 });
  expect(now()).toEqual({ open: 1, settled: 0 });
  Object.assign(standing, { running: 0, done: 25 });
  expect(now()).toEqual({ open: 0, settled: 1 });
});
