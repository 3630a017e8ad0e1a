import { expect, test } from "vitest";
import { surveyInput } from "#domain/condition/survey-input.ts";
import { latestFindings } from "#drizzle/queries/findings.ts";
import { insertPlace } from "#drizzle/queries/places.ts";
import { recordSurvey } from "#server/actions/record-survey.ts";
import { createApp } from "#server/app.ts";
import { keptPrint } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const words = (html: string) => html.replace(/<[^>]+>/g, " ").replace(/\s+/g, " ");

function surveyed() {
  const context = { ...emptyCollection(), now: () => "2026-11-25T12:00:00.000Z" };
  const box = insertPlace(context.db, { parentId: null, kind: "box", name: "Tin" });
  const mouldy = keptPrint(context.db, "1", { title: "Mouldy", placeId: box });
  const sound = keptPrint(context.db, "2", { title: "Sound" });
  keptPrint(context.db, "3", { title: "Unseen" });
  const look = (printId: number, surveyedOn: string, found: object[], rejudged: object[] = []) => {
    const made = recordSurvey(context, { printId, input: surveyInput.parse({ surveyedOn, grade: "", found, rejudged }) });
    if (!made.ok) throw new Error(made.refusals[0]?.happened);
  };
  look(mouldy, "2026-10-01", [{ term: "mould", severity: "2", activity: "active" }]);
  look(sound, "2026-10-01", []);
  const app = createApp(context);
  const text = async (path: string) => words(await (await app.request(path)).text());
  return { context, box, mouldy, sound, look, text };
}

test("what is due is told with its day and reason, what is not is not, and nobody's prints stand apart", async () => {
  const { text, mouldy, sound } = surveyed();
  const page = await text("/due");
  expect(page).toContain("1 print asks to be looked at again; nobody has looked at 1 print yet.");
  expect(page).toMatch(/Due: 1 1 Mouldy By 1 November 2026, because mould spreads/);
  expect(page).toMatch(/Never looked at: 1 3 Unseen/);
  expect(page).toMatch(/Later: 1 2 Sound By 1 October 2031/);
  expect(await text(`/prints/${mouldy}`)).toContain("A look is due since 1 November 2026");
  expect(await text(`/prints/${sound}`)).toContain("Next look by 1 October 2031");
});

test("a place shows its own prints alone, and a later look takes a print off the list", async () => {
  const { context, box, look, mouldy, text } = surveyed();
  expect(await text(`/due?place=${box}`)).not.toContain("Unseen");
  const elsewhere = insertPlace(context.db, { parentId: null, kind: "box", name: "Other" });
  expect(await text(`/due?place=${elsewhere}`)).toContain("No look is due.");
  const [{ id } = { id: 0 }] = latestFindings(context.db, [mouldy]).get(mouldy) ?? [];
  look(mouldy, "2026-11-25", [], [{ findingId: String(id), change: "gone", severity: "2" }]);
  expect(await text("/due")).toContain("No look is due; nobody has looked at 1 print yet.");
  expect(await text(`/prints/${mouldy}`)).toContain("Next look by 25 November 2031");
});
