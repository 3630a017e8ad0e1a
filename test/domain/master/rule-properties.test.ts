import { describe, expect, test } from "vitest";
import type { Candidate } from "#domain/master/rule.ts";
import { rule } from "#domain/master/rule.ts";
import type { MeasureName } from "#domain/measure/catalogue.ts";
import { COUNTING, capture, seeded } from "./captures.ts";

const ROUNDS = 2000;
const MEASURES = ["samplingPpi", "sfr50CyPerMm", "noiseDeltaL"] as const;
const isBetter = (measure: MeasureName, one: number, other: number) => (measure === "noiseDeltaL" ? one < other : one > other);

type Row = Partial<Record<(typeof MEASURES)[number], number>>;

/** Few distinct values, so that ties and beaten captures are common; `absent` is the share of readings left out. */
function table(random: () => number, absent: number): Row[] {
  const steps = random() < 0.5 ? 4 : 1000;
  return Array.from({ length: 1 + Math.floor(random() * 6) }, () =>
    Object.fromEntries(MEASURES.filter(() => random() >= absent).map((measure) => [measure, (Math.floor(random() * steps) * 120) / steps])),
  );
}

const candidates = (rows: readonly Row[]): Candidate[] => rows.map((row, index) => capture(index + 1, row));

/** Written out anew from the rule in words, not from the code under test. */
function beats(one: Row, other: Row): boolean {
  const shown = MEASURES.filter((measure) => other[measure] !== undefined);
  const pairs = shown.map((measure) => ({ measure, one: one[measure], other: other[measure] as number }));
  if (pairs.some((pair) => pair.one === undefined || isBetter(pair.measure, pair.other, pair.one))) return false;
  return pairs.some((pair) => isBetter(pair.measure, pair.one as number, pair.other));
}

const shuffled = <T>(items: readonly T[], random: () => number): T[] =>
  items
    .map((item) => ({ item, at: random() }))
    .toSorted((a, b) => a.at - b.at)
    .map(({ item }) => item);

describe.each([
  ["complete tables", 0],
  ["tables with holes", 0.35],
])("over %s", (_, absent) => {
  test("there is always a master, and no other capture beats it", () => {
    const random = seeded(1);
    let beatenSeen = 0;
    for (let round = 0; round < ROUNDS; round++) {
      const rows = table(random, absent);
      const { masterId } = rule(candidates(rows), COUNTING);
      const master = rows[(masterId ?? 0) - 1];
      if (!master) throw new Error("no master");
      expect(rows.filter((other) => beats(other, master))).toEqual([]);
      beatenSeen += rows.filter((row) => rows.some((other) => beats(other, row))).length;
    }
    expect(beatenSeen).toBeGreaterThan(ROUNDS / 10);
  });

  test("the order of the captures does not matter", () => {
    const random = seeded(2);
    for (let round = 0; round < ROUNDS; round++) {
      const given = candidates(table(random, absent));
      expect(rule(shuffled(given, random), COUNTING)).toEqual(rule(given, COUNTING));
    }
  });

  test("adding a capture worse than one that is there changes nothing", () => {
    const random = seeded(3);
    for (let round = 0; round < ROUNDS; round++) {
      const rows = table(random, absent);
      const better = rows[Math.floor(random() * rows.length)] as Row;
      const kept = MEASURES.filter((measure) => better[measure] !== undefined && random() < 0.8);
      if (kept.length === 0) continue;
      const worse: Row = Object.fromEntries(
        kept.map((measure) => [measure, (better[measure] as number) + (measure === "noiseDeltaL" ? 7 : -7)]),
      );
      const before = rule(candidates(rows), COUNTING);
      const after = rule(candidates([...rows, worse]), COUNTING);
      expect(after.masterId).toBe(before.masterId);
    }
  });
});

/** Better in one measure that it shows; a master that no longer wins is counted. */
function dethroned(absent: number, counts: (rows: readonly Row[], masterId: number) => boolean): { tried: number; lost: number } {
  const random = seeded(4);
  let [tried, lost] = [0, 0];
  for (let round = 0; round < ROUNDS; round++) {
    const rows = table(random, absent);
    const masterId = rule(candidates(rows), COUNTING).masterId as number;
    const shown = MEASURES.filter((measure) => rows[masterId - 1]?.[measure] !== undefined);
    if (shown.length === 0 || !counts(rows, masterId)) continue;
    const measure = shown[Math.floor(random() * shown.length)] as (typeof MEASURES)[number];
    const better = rows.map((row, index) =>
      index === masterId - 1
        ? { ...row, [measure]: (row[measure] as number) + (measure === "noiseDeltaL" ? -random() : random()) * 50 }
        : row,
    );
    tried++;
    if (rule(candidates(better), COUNTING).masterId !== masterId) lost++;
  }
  return { tried, lost };
}

test("over complete tables, a master that gets better stays master", () => {
  const { tried, lost } = dethroned(0, () => true);
  expect(tried).toBeGreaterThan(ROUNDS / 2);
  expect(lost).toBe(0);
});

test("over tables with holes, a master that wins every comparison stays master when it gets better", () => {
  const winsEvery = (rows: readonly Row[], masterId: number) =>
    rows.every((row, index) => {
      if (index === masterId - 1) return true;
      const pair = candidates(rows).filter(({ captureId }) => captureId === masterId || captureId === index + 1);
      // taken in last, so that a tie is not a win
      const asLast = pair.map((each) => (each.captureId === masterId ? { ...each, captureId: 1000 } : each));
      return rule(asLast, COUNTING).masterId === 1000 || beats(rows[masterId - 1] as Row, row);
    });
  const { tried, lost } = dethroned(0.35, winsEvery);
  expect(tried).toBeGreaterThan(ROUNDS / 4);
  expect(lost).toBe(0);
});
