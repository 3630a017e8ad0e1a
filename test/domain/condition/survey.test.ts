import { expect, test } from "vitest";
import { type DatedFinding, livesOf } from "#domain/condition/finding.ts";
import { proposedGrade } from "#domain/condition/grade.ts";
import { surveyInput } from "#domain/condition/survey-input.ts";

const finding = (term: string, severity: number, activity: "active" | "stable" | "not-known" = "not-known") => ({
  term,
  severity,
  activity,
});

/** Written out from the rule in words, not from the program. */
const GRADED: readonly [string, ReturnType<typeof finding>[], string][] = [
  ["nothing found", [], "good"],
  ["looked for and not found", [finding("mould", 0)], "good"],
  ["slight wear", [finding("abrasion", 1), finding("curl", 1, "stable")], "good"],
  ["slight, but active", [finding("abrasion", 1), finding("curl", 1, "active")], "fair"],
  ["moderate", [finding("stain", 2)], "fair"],
  ["moderate and active", [finding("foxing", 2, "active")], "poor"],
  ["marked, not active", [finding("tear", 3, "stable")], "fair"],
  ["marked and active", [finding("flaking", 3, "active")], "poor"],
  ["severe, activity not known", [finding("loss", 4)], "poor"],
  ["severe and active", [finding("mould", 4, "active"), finding("stain", 2)], "unacceptable"],
  ["marked and active outranks marked and still", [finding("tear", 3), finding("flaking", 3, "active")], "poor"],
  ["a fault of making, however large", [finding("undeveloped", 4), finding("light-leak", 3, "active")], "good"],
  ["an inscription that fades", [finding("inscription", 4, "active")], "good"],
];

test.each(GRADED)("%s", (_case, findings, grade) => {
  expect(proposedGrade(findings).grade).toBe(grade);
  expect(proposedGrade(findings.toReversed()).grade).toBe(grade);
});

test("the proposal names the finding that decides", () => {
  expect(proposedGrade([finding("stain", 2), finding("mould", 4, "active")]).because).toBe("Mould is severe and active");
  expect(proposedGrade([finding("undeveloped", 4)]).because).toBe("no damage was found");
});

test("a finding is followed through surveys by what it points back to, not by its term", () => {
  const judged = (id: number, earlierFindingId: number | null, surveyedOn: string): DatedFinding => {
    const same = {
      term: "stain",
      severity: 2,
      activity: "stable",
      side: "front",
      note: null,
      extent: null,
      regions: [],
      change: null,
    } as const;
    return { ...same, id, earlierFindingId, surveyId: id, surveyedOn, lookedAtBy: null };
  };
  const lives = livesOf([
    judged(1, null, "2020-01-01"),
    judged(2, null, "2020-01-01"),
    judged(3, 2, "2022-01-01"),
    judged(4, 3, "2024-01-01"),
  ]);
  expect(lives.map((life) => life.map(({ id }) => id))).toEqual([[1], [2, 3, 4]]);
});

const DAY = { surveyedOn: "2026-11-25" };

test("an empty row counts as nothing, a written one must be whole, and the refusal names its row", () => {
  const empty = { term: "", severity: "", activity: "not-known", side: "front", note: "" };
  const whole = { ...empty, term: "mould", severity: "3", note: "lower left" };
  const read = surveyInput.parse({ ...DAY, found: [empty, whole, empty] });
  expect(read.found).toEqual([
    { term: "mould", severity: 3, activity: "not-known", side: "front", extent: null, regions: [], note: "lower left" },
  ]);
  expect(read.grade).toBe(null);
  const refused = surveyInput.safeParse({ ...DAY, found: [empty, { ...empty, note: "lower left" }] });
  expect(refused.error?.issues.map(({ path }) => path.join("."))).toEqual(["found.1.term", "found.1.severity"]);
});

test("what is not in a list is refused: days, terms, levels, grades", () => {
  const refusedAt = (input: object) => surveyInput.safeParse({ ...DAY, ...input }).error?.issues.map(({ path }) => path.join("."));
  expect(refusedAt({ surveyedOn: "2026-02-30" })).toEqual(["surveyedOn"]);
  expect(refusedAt({ grade: "mint" })).toEqual(["grade"]);
  expect(refusedAt({ found: [{ term: "nibbled", severity: "2" }] })).toEqual(["found.0.term"]);
  expect(refusedAt({ found: [{ term: "mould", severity: "5" }] })).toEqual(["found.0.severity"]);
  expect(refusedAt({ rejudged: [{ findingId: "7", severity: "2" }] })).toEqual(["rejudged.0.change"]);
});
