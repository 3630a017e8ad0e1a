import { expect, test } from "vitest";
import { choose } from "#domain/master/choose.ts";
import { captureToPropose } from "#domain/master/proposal.ts";
import { COUNTING, capture } from "./captures.ts";

const SEEN = [capture(1, { samplingPpi: 50 }), capture(2, { samplingPpi: 60 })];
/** A person chose the coarser of two. */
const HELD = { captureId: 1, explanation: choose(SEEN, COUNTING) };
const propose = (captures: typeof SEEN, declined: readonly number[] = [], held = HELD) =>
  captureToPropose(held, choose(captures, COUNTING), declined);

test("a later capture that the rule prefers is proposed", () => {
  expect(propose([...SEEN, capture(3, { samplingPpi: 70 })])).toBe(3);
});

test("a later capture that is no better is not", () => {
  expect(propose([...SEEN, capture(3, { samplingPpi: 55 })])).toBeNull();
});

test("a capture that the person saw and passed over is not proposed, however much better it is read now", () => {
  expect(propose([SEEN[0] as (typeof SEEN)[0], capture(2, { samplingPpi: 99 })])).toBeNull();
});

test("one that was there but not measured yet when they decided is", () => {
  const unmeasured = choose([capture(1, { samplingPpi: 50 }), capture(2, {})], COUNTING);
  expect(propose(SEEN, [], { captureId: 1, explanation: unmeasured })).toBe(2);
});

test("what was declined, what is chosen already, and nothing at all are not proposed", () => {
  expect(propose([...SEEN, capture(3, { samplingPpi: 70 })], [3])).toBeNull();
  expect(propose([...SEEN, capture(3, { samplingPpi: 70 })], [], { ...HELD, captureId: 3 })).toBeNull();
  expect(propose([])).toBeNull();
});
