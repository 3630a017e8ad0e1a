import { expect, test } from "vitest";
import { livesOf } from "#domain/condition/finding.ts";
import { surveyInput } from "#domain/condition/survey-input.ts";
import { historyOfPrint } from "#drizzle/queries/events.ts";
import { judgementsOfPrint } from "#drizzle/queries/findings.ts";
import { lastSurvey } from "#drizzle/queries/surveys.ts";
import { recordSurvey, standingFindings } from "#server/actions/record-survey.ts";
import type { Context } from "#server/context.ts";
import { keptPrint } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

function aPrint() {
  const context: Context = { ...emptyCollection(), now: () => "2026-11-25T12:00:00.000Z" };
  const printId = keptPrint(context.db, "1978.001");
  const look = (input: object) => recordSurvey(context, { printId, input: surveyInput.parse(input) });
  return { context, printId, look };
}

/** What the last survey left standing, as [term, severity, change]. */
const standing = ({ context, printId }: ReturnType<typeof aPrint>) =>
  standingFindings(context.db, printId).map(({ term, severity, change }) => [term, severity, change]);

const MOULD = { term: "mould", severity: "3", activity: "active", side: "back", note: "lower edge" };
const TEAR = { term: "tear", severity: "2", activity: "stable" };

const refusedFields = (outcome: ReturnType<ReturnType<typeof aPrint>["look"]>) =>
  outcome.ok ? [] : outcome.refusals.map(({ about }) => about);

test("the grade follows from the findings unless a person gives one, and which it was is kept", () => {
  const print = aPrint();
  print.look({ surveyedOn: "2026-11-01", found: [TEAR] });
  expect(lastSurvey(print.context.db, print.printId)).toMatchObject({ grade: "fair", gradeBasis: "proposed" });
  const [tear] = standingFindings(print.context.db, print.printId);
  print.look({ surveyedOn: "2026-11-02", grade: "good", rejudged: [{ findingId: String(tear?.id), change: "same", severity: "2" }] });
  expect(lastSurvey(print.context.db, print.printId)).toMatchObject({ grade: "good", gradeBasis: "said", surveyedOn: "2026-11-02" });
});

test("a finding is one through all surveys: worse, not looked at, gone, each with its line of history", () => {
  const print = aPrint();
  const { context, printId, look } = print;
  look({ surveyedOn: "2020-05-01", found: [TEAR, MOULD] });
  const again = (change: string, severity: string) =>
    standingFindings(context.db, printId).map(({ id, term, severity: before }) => ({
      findingId: String(id),
      ...(term === "tear" ? { change, severity } : { change: "not-looked", severity: String(before) }),
    }));
  expect(look({ surveyedOn: "2022-05-01", rejudged: again("worse", "3") }).ok).toBe(true);
  expect(standing(print)).toEqual([
    ["tear", 3, "worse"],
    ["mould", 3, null],
  ]);
  expect(standingFindings(context.db, printId)[1]).toMatchObject({ activity: "active", side: "back", note: "lower edge" });
  expect(look({ surveyedOn: "2024-05-01", rejudged: again("gone", "3") }).ok).toBe(true);
  expect(standing(print)).toEqual([["mould", 3, null]]);
  const lives = livesOf(judgementsOfPrint(context.db, printId)).map((life) =>
    life.map(({ surveyedOn, severity }) => [surveyedOn, severity]),
  );
  expect(lives).toEqual([
    [
      ["2020-05-01", 2],
      ["2022-05-01", 3],
      ["2024-05-01", 0],
    ],
    [
      ["2020-05-01", 3],
      ["2022-05-01", 3],
      ["2024-05-01", 3],
    ],
  ]);
  expect(historyOfPrint(context.db, printId).map(({ verb, subject }) => `${verb} ${subject}`)).toEqual(Array(3).fill("recorded survey"));
});

test("nothing is kept of a survey that leaves an earlier finding out, or judges one that is not there", () => {
  const print = aPrint();
  print.look({ surveyedOn: "2026-11-01", found: [TEAR, MOULD] });
  const [tear] = standingFindings(print.context.db, print.printId);
  const row = { findingId: String(tear?.id), change: "same", severity: "2" };
  for (const rejudged of [[], [row], [row, row], [row, { ...row, findingId: "999" }]])
    expect(refusedFields(print.look({ surveyedOn: "2026-11-02", rejudged }))).toEqual([null]);
  expect(lastSurvey(print.context.db, print.printId)?.surveyedOn).toBe("2026-11-01");
});

test.each([
  ["same", "3"],
  ["better", "3"],
  ["worse", "1"],
  ["better", "0"],
])("said to be %s at level %s of a finding that was level 2: refused at its level", (change, severity) => {
  const print = aPrint();
  print.look({ surveyedOn: "2026-11-01", found: [TEAR] });
  const [tear] = standingFindings(print.context.db, print.printId);
  const refused = print.look({ surveyedOn: "2026-11-02", rejudged: [{ findingId: String(tear?.id), change, severity }] });
  expect(refusedFields(refused)).toEqual(["rejudged.0.severity"]);
});

test("a day before the last survey or after today is refused; today in the east is taken", () => {
  const { look } = aPrint();
  expect(look({ surveyedOn: "2026-11-26" }).ok).toBe(true);
  expect(refusedFields(look({ surveyedOn: "2026-11-25" }))).toEqual(["surveyedOn"]);
  expect(refusedFields(look({ surveyedOn: "2026-11-27" }))).toEqual(["surveyedOn"]);
});

test("a grade that says damaged needs a finding that says how", () => {
  const { look } = aPrint();
  expect(refusedFields(look({ surveyedOn: "2026-11-25", grade: "poor" }))).toEqual(["grade"]);
  expect(refusedFields(look({ surveyedOn: "2026-11-25", grade: "poor", found: [{ ...TEAR, severity: "0" }] }))).toEqual(["grade"]);
  expect(look({ surveyedOn: "2026-11-25", grade: "poor", found: [TEAR] }).ok).toBe(true);
});
