import { describe, expect, test } from "vitest";
import { INTERVAL_RULES, monthsAfter, nextSurvey, type Surveyed } from "#domain/condition/next-survey.ts";
import { findTerm } from "#domain/condition/terms.ts";
import { findProcess } from "#domain/print/process.ts";

const LOOK: Surveyed = { surveyedOn: "2026-01-15", grade: "good", processId: "gelatin-silver", findings: [] };
const found = (term: string, severity: number, activity: "active" | "stable" | "not-known" = "not-known") => ({ term, severity, activity });

/** Written out from the rules in words: each case beside its opposite. */
const CASES: readonly [string, Partial<Surveyed>, string][] = [
  ["good: five years", {}, "2031-01-15"],
  ["fair: two years", { grade: "fair" }, "2028-01-15"],
  ["poor: half a year", { grade: "poor" }, "2026-07-15"],
  ["unacceptable: a month", { grade: "unacceptable" }, "2026-02-15"],
  ["good, but an instant print: two years", { processId: "integral-instant-colour" }, "2028-01-15"],
  ["good, but in colour on paper: three years", { processId: "chromogenic" }, "2029-01-15"],
  ["poor outranks the process", { grade: "poor", processId: "integral-instant-colour" }, "2026-07-15"],
  ["a slight active stain: a year", { findings: [found("stain", 1, "active")] }, "2027-01-15"],
  ["the same stain, not active: no sooner", { findings: [found("stain", 1, "stable")] }, "2031-01-15"],
  ["moderate and active: half a year", { grade: "fair", findings: [found("stain", 2, "active")] }, "2026-07-15"],
  ["marked and active: three months", { grade: "poor", findings: [found("stain", 3, "active")] }, "2026-04-15"],
  ["mould that may go on: a month", { findings: [found("mould", 1)] }, "2026-02-15"],
  ["mould that has stopped: no sooner", { findings: [found("mould", 1, "stable")] }, "2031-01-15"],
  ["mould looked for and not found: no sooner", { findings: [found("mould", 0)] }, "2031-01-15"],
  ["a tear of which nobody knows: three months", { grade: "fair", findings: [found("tear", 2)] }, "2026-04-15"],
  ["the same tear, slight: as its grade says", { grade: "fair", findings: [found("tear", 1)] }, "2028-01-15"],
  ["marked, activity not known: a year", { grade: "fair", findings: [found("stain", 3)] }, "2027-01-15"],
  ["a fault of making never counts", { findings: [found("light-leak", 4, "active")] }, "2031-01-15"],
  ["no grade: as for a fair print", { grade: null }, "2028-01-15"],
];

describe("the next survey is due", () => {
  test.each(CASES)("%s", (_case, look, dueOn) => {
    const next = nextSurvey({ ...LOOK, ...look });
    expect(next.dueOn).toBe(dueOn);
    expect(next.because).not.toMatch(/[{}]/);
  });

  test("and the reason names the finding that decides", () => {
    const findings = [found("stain", 2, "active"), found("mould", 3, "active")];
    expect(nextSurvey({ ...LOOK, findings }).because).toContain("mould");
  });
});

test("months end where the month ends", () => {
  expect(monthsAfter("2026-08-31", 6)).toBe("2027-02-28");
  expect(monthsAfter("2027-08-31", 6)).toBe("2028-02-29");
  expect(monthsAfter("2026-12-15", 1)).toBe("2027-01-15");
  expect(monthsAfter("2026-01-31", 60)).toBe("2031-01-31");
});

test("every rule names known terms and processes and says who says so", () => {
  for (const { terms = [], processes = [], source, months } of INTERVAL_RULES) {
    expect(terms.filter((id) => findTerm(id) === null)).toEqual([]);
    expect(processes.filter((id) => findProcess(id) === null)).toEqual([]);
    expect(source).toMatch(/^own/);
    expect(months).toBeGreaterThan(0);
  }
});
