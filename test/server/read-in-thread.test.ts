import { expect, test, vi } from "vitest";
import { readInThread } from "#server/target/read-in-thread.ts";

test("once a target was read, the thread that is kept for the next one keeps no program from ending", async () => {
  const timers = vi.spyOn(globalThis, "setTimeout");
  const ending = new AbortController();
  const file = { path: "/nowhere/sheet.png", name: "sheet.png", layout: null, reference: null, saidSheet: null };
  expect((await readInThread(file, ending.signal)).ok).toBe(false);
  const kept = timers.mock.results.filter((_, index) => timers.mock.calls[index]?.[1] === 3000).map(({ value }) => value);
  expect(kept.length).toBeGreaterThan(0);
  expect(kept.some((timer) => timer.hasRef())).toBe(false);
  ending.abort();
  // a timer that was cleared
  expect(kept.every((timer) => timer._destroyed)).toBe(true);
  timers.mockRestore();
}, 60_000);
