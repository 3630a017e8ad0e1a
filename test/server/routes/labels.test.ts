import { expect, test } from "vitest";
import { surveyInput } from "#domain/condition/survey-input.ts";
import { recordSurvey } from "#server/actions/record-survey.ts";
import { createApp } from "#server/app.ts";
import { keptPrint } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const labels = (html: string) => [...html.matchAll(/<li class="label">(.*?)<\/li>/gs)].map(([, label = ""]) => label);

test("a label says number, title and the gravest cautions in words, most dangerous first, and which methods are forbidden", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001", { title: "Ferry", processId: "integral-instant-colour", processedOn: "1978" });
  const found = [{ term: "reagent-leak", severity: "3" }];
  const input = surveyInput.parse({ surveyedOn: "2026-01-05", grade: "", note: "", rejudged: [], found });
  expect(recordSurvey(context, { printId, input }).ok).toBe(true);
  const [label = ""] = labels(await (await createApp(context).request("/labels?size=sleeve")).text());
  expect(label).toContain("1978.001");
  expect(label).toContain("Ferry");
  expect(label.match(/label-mark [^>]*>[^<]*/g)?.[0]).toContain("Danger: Leaking reagent");
  expect(label).toContain("Not with a sheet-fed scanner or a flatbed scanner");
  expect(label).toMatch(/\d+ more warnings in the record/);
});

test("a sound print's label marks nothing", async () => {
  const context = emptyCollection();
  keptPrint(context.db, "1985.001", { title: "Harbour", processId: "chromogenic" });
  const [label = ""] = labels(await (await createApp(context).request("/labels")).text());
  expect(label).toContain("Harbour");
  expect(label).not.toMatch(/label-mark|Not with/);
});

test("the labels are those of a place, and its page offers them", async () => {
  const context = emptyCollection();
  const box = context.db.$client.prepare("insert into places (kind, name) values ('box', 'Box 1') returning id").pluck().get() as number;
  keptPrint(context.db, "1985.001", { placeId: box });
  keptPrint(context.db, "1985.002");
  const app = createApp(context);
  expect(labels(await (await app.request(`/labels?place=${box}`)).text())).toHaveLength(1);
  expect(labels(await (await app.request("/labels")).text())).toHaveLength(2);
  expect(await (await app.request("/places")).text()).toContain(`/labels?place=${box}`);
  expect(await (await app.request(`/prints?place=${box}`)).text()).toContain(`/labels?place=${box}`);
});
