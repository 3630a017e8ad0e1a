import { expect, test } from "vitest";
import { carePriority } from "#domain/storage/care-priority.ts";
import { known, notKnown } from "#domain/storage/climate/series.ts";
import { type Display, displayInput } from "#domain/storage/display.ts";
import { doseInWords, lightBudgetOf, lightDose } from "#domain/storage/light-budget.ts";

const display = (startsOn: string, endsOn: string | null, lux: number, hoursPerDay: number): Display => ({
  id: 1,
  printId: 1,
  startsOn,
  endsOn,
  lux,
  hoursPerDay,
  glazing: "none",
  note: null,
});
const instant = lightBudgetOf("integral-instant-colour");

test("light is lux times hours times days, both days counted, and nothing after today", () => {
  const dose = lightDose([display("2026-01-01", "2026-01-10", 50, 10)], instant, "2026-12-01");
  expect(dose).toMatchObject({ luxHours: 5000, luxHoursThisYear: 5000, shareOfYear: 0.1, overlappingDays: 0 });
  expect(lightDose([display("2026-01-01", null, 50, 10)], instant, "2026-01-02").luxHours).toBe(1000);
  expect(lightDose([display("2027-01-01", "2027-02-01", 50, 10)], instant, "2026-01-02").luxHours).toBe(0);
});

test("what lies more than 365 days back counts for life, not for this year", () => {
  // the year that ends on 2026-12-31 begins on 2026-01-01
  const dose = lightDose([display("2025-12-30", "2026-01-02", 100, 1)], instant, "2026-12-31");
  expect(dose).toMatchObject({ luxHours: 400, luxHoursThisYear: 200 });
});

test("days logged twice are counted twice and told", () => {
  expect(
    lightDose([display("2026-01-01", "2026-01-03", 1, 1), display("2026-01-03", "2026-01-04", 1, 1)], instant, "2026-02-01"),
  ).toMatchObject({
    luxHours: 5,
    overlappingDays: 1,
  });
});

test("words for a spent budget, a near one, none at all and nothing logged", () => {
  const said = (lux: number, process: string, isLogged = true) => {
    const budget = lightBudgetOf(process);
    return doseInWords(lightDose([display("2026-01-01", "2026-04-10", lux, 10)], budget, "2026-12-01"), budget, isLogged);
  };
  expect(said(60, "integral-instant-colour")).toContain("Over the limit");
  expect(said(60, "integral-instant-colour")).not.toContain("Take it down");
  expect(doseInWords(lightDose([display("2026-01-01", null, 100, 10)], instant, "2026-12-01"), instant, true)).toContain("Take it down.");
  expect(said(42, "integral-instant-colour")).toContain("Close to the limit");
  expect(said(10, "integral-instant-colour")).toMatch(/^10,000 lux hours in the last 365 days, 20 %/);
  expect(said(1, "direct-thermal")).toContain("should not be shown at all");
  expect(said(1, "inkjet", false)).toContain("not known");
});

test("a process that is not known counts as very sensitive", () => {
  expect(lightBudgetOf("not-known").luxHoursAYear).toBe(50_000);
  expect(lightBudgetOf("not-known").doubt).toContain("not known");
});

test("a display that ends before it begins, or has no lux, is refused at its field", () => {
  const texts = { startsOn: "2026-03-01", endsOn: "", lux: "50", hoursPerDay: "8,5", glazing: "glass" };
  expect(displayInput.parse(texts)).toMatchObject({ endsOn: null, hoursPerDay: 8.5 });
  expect(displayInput.safeParse({ ...texts, endsOn: "2026-02-01" }).error?.issues[0]?.path).toEqual(["endsOn"]);
  expect(displayInput.safeParse({ ...texts, lux: "bright" }).error?.issues[0]?.path).toEqual(["lux"]);
  expect(displayInput.safeParse({ ...texts, startsOn: "2026-02-30" }).error?.issues[0]?.path).toEqual(["startsOn"]);
});

const goodClimate = known({ outsideShare: 0.01, unknownShare: 0, mouldDays: 0 });

test("the priority is the product of its factors, each with its reason", () => {
  const best = carePriority({ grade: "good", findings: [], significance: 1, climate: goodClimate });
  expect(best).toMatchObject({ score: 1, least: 1, most: 1, unknown: [] });
  const worst = carePriority({
    grade: "unacceptable",
    findings: [{ severity: 4, activity: "active" }],
    significance: 5,
    climate: known({ outsideShare: 0.5, unknownShare: 0, mouldDays: null }),
  });
  expect(worst.score).toBe(4 * 3 * 5 * 3);
  expect(worst.factors.climate.because).toContain("50 %");
});

test("what is not known is named and never counted as good", () => {
  const blank = carePriority({ grade: null, findings: null, significance: null, climate: notKnown("no climate readings") });
  expect(blank.unknown).toEqual(["condition", "activity", "significance", "climate"]);
  expect(blank).toMatchObject({ score: 2 * 2 * 3 * 2, least: 1, most: 4 * 3 * 5 * 3 });
  const seen = carePriority({ grade: "good", findings: [], significance: 1, climate: goodClimate });
  expect(blank.score).toBeGreaterThan(seen.score);
});

test("a climate with few readings is not good because those were", () => {
  const climate = known({ outsideShare: 0, unknownShare: 0.9, mouldDays: 0 });
  const { factors } = carePriority({ grade: "good", findings: [], significance: 1, climate });
  expect(factors.climate).toMatchObject({ score: 2, least: 1, most: 3, isKnown: false });
});

test("one day damp enough for mould is a high climate risk", () => {
  const climate = known({ outsideShare: 0, unknownShare: 0, mouldDays: 1 });
  expect(carePriority({ grade: "good", findings: [], significance: 1, climate }).factors.climate.score).toBe(3);
});
