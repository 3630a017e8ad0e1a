import { expect, test } from "vitest";
import type { Verdict } from "#domain/master/judgement.ts";
import { type JudgedRow, judgedRow, knownAfter } from "#domain/recapture/judged-row.ts";

const SHORT = { measure: "samplingPpi", sense: "at-least", required: 392, value: 300, bound: null, notShown: null } as const;

const verdict = (captureId: number, shortfalls: Verdict["shortfalls"], value: number | null = 300): Verdict => ({
  captureId,
  fileName: `${captureId}.tif`,
  measures: [{ measure: "samplingPpi", value, bound: null, spread: null, desirability: null, notShown: null }],
  shortfalls,
  beatenBy: null,
  overall: null,
});
const chosen = (captureId: number | null, verdicts: Verdict[]) => ({
  captureId,
  bestId: captureId ?? verdicts[0]?.captureId ?? null,
  verdicts,
});

const OPEN: JudgedRow = { state: "open", knownCaptureIds: [1], isExempt: false };
const TICKED: JudgedRow = { ...OPEN, state: "ticked" };
const CLOSED: JudgedRow = { state: "closed", knownCaptureIds: [1, 2], isExempt: false };

test.each([OPEN, TICKED])("a new capture that meets the aim closes a row that is $state", (row) => {
  expect(judgedRow(row, chosen(2, [verdict(1, [SHORT]), verdict(2, [])]))).toEqual({ to: "closed", captureId: 2 });
});

test.each([OPEN, TICKED])("a new capture that falls short opens a row that is $state again, with what that capture lacks", (row) => {
  const lacks = { ...SHORT, value: 350 };
  expect(judgedRow(row, chosen(null, [verdict(1, [SHORT]), verdict(2, [lacks])]))).toEqual({
    to: "open",
    why: "new-capture",
    captureId: 2,
    shortfalls: [lacks],
  });
});

test("nothing new leaves a row as it is, ticked or not", () => {
  expect(judgedRow(OPEN, chosen(null, [verdict(1, [SHORT])]))).toBeNull();
  expect(judgedRow(TICKED, chosen(null, [verdict(1, [SHORT])]))).toBeNull();
  expect(judgedRow({ ...OPEN, knownCaptureIds: [] }, chosen(null, []))).toBeNull();
});

test("a new capture that waits to be measured is no attempt yet, and none that is known", () => {
  const waiting = verdict(2, [{ ...SHORT, value: null, notShown: "not measured yet" }], null);
  const judged = chosen(null, [verdict(1, [SHORT]), waiting]);
  expect(judgedRow(TICKED, judged)).toBeNull();
  expect(knownAfter(judged.verdicts)).toEqual([1]);
});

test("of two new captures the later one tells why, and one that meets the aim closes whichever came last", () => {
  const later = { ...SHORT, value: 380 };
  expect(judgedRow(OPEN, chosen(null, [verdict(1, [SHORT]), verdict(2, [SHORT]), verdict(3, [later])]))).toMatchObject({
    captureId: 3,
    shortfalls: [later],
  });
  expect(judgedRow(OPEN, chosen(2, [verdict(1, [SHORT]), verdict(2, []), verdict(3, [later])]))).toEqual({ to: "closed", captureId: 2 });
});

test("a capture that meets the aim closes the row though a person's choice stays master", () => {
  expect(judgedRow(OPEN, chosen(1, [verdict(1, [SHORT]), verdict(2, [])]))).toEqual({ to: "closed", captureId: 2 });
  // and looked at once more it stays closed
  expect(judgedRow(CLOSED, chosen(1, [verdict(1, [SHORT]), verdict(2, [])]))).toBeNull();
});

test("a laxer aim closes a row without a new capture, a closed row stays closed, and a stricter aim opens it again", () => {
  expect(judgedRow(OPEN, chosen(1, [verdict(1, [])]))).toEqual({ to: "closed", captureId: null });
  expect(judgedRow(CLOSED, chosen(2, [verdict(1, [SHORT]), verdict(2, [])]))).toBeNull();
  expect(judgedRow(CLOSED, chosen(null, [verdict(2, [SHORT]), verdict(1, [SHORT])]))).toEqual({
    to: "open",
    why: "short-again",
    captureId: 2,
    shortfalls: [SHORT],
  });
});

test("what a person let go stays so as long as their word holds, whatever is taken in", () => {
  const letGo: JudgedRow = { ...OPEN, state: "let-go", isExempt: true };
  expect(judgedRow(letGo, chosen(null, [verdict(1, [SHORT]), verdict(2, [SHORT])]))).toBeNull();
  expect(judgedRow(letGo, chosen(2, [verdict(1, [SHORT]), verdict(2, [])]))).toBeNull();
});

test("once their word has lapsed it is asked for again, with or without a capture, or closed where the aim is met", () => {
  const lapsed: JudgedRow = { ...OPEN, state: "let-go" };
  expect(judgedRow(lapsed, chosen(1, [verdict(1, [SHORT])]))).toEqual({
    to: "open",
    why: "short-again",
    captureId: 1,
    shortfalls: [SHORT],
  });
  expect(judgedRow(lapsed, chosen(null, []))).toEqual({ to: "open", why: "none-measured", captureId: null, shortfalls: [] });
  expect(judgedRow(lapsed, chosen(1, [verdict(1, [])]))).toEqual({ to: "closed", captureId: null });
});
