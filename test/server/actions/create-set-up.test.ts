import { expect, test } from "vitest";
import { setUpInput } from "#domain/capture/set-up.ts";
import { listSetUps } from "#drizzle/queries/set-ups.ts";
import { createSetUp } from "#server/actions/create-set-up.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const copyStand = { name: "Copy stand by the window", method: "copy-stand-camera", priceAmount: "249,90", priceCurrency: "eur" };

test("a set-up is kept with empty fields as not known, and its making stands in the history", () => {
  const context = emptyCollection();
  const outcome = createSetUp(context, setUpInput.parse(copyStand));
  if (!outcome.ok) throw new Error("refused");
  expect(outcome.value).toMatchObject({ name: "Copy stand by the window", lens: null, priceAmount: 249.9, priceCurrency: "EUR" });
  const event = context.db.$client.prepare("select verb, subject, subject_id as id from events where subject = 'set-up'").get();
  expect(event).toEqual({ verb: "created", subject: "set-up", id: outcome.value.id });
});

test("two set-ups cannot share a name, whatever the letter case", () => {
  const context = emptyCollection();
  createSetUp(context, setUpInput.parse(copyStand));
  const second = createSetUp(context, setUpInput.parse({ ...copyStand, name: "COPY STAND BY THE WINDOW" }));
  expect(second).toMatchObject({ ok: false, refusals: [{ about: "name" }] });
  expect(listSetUps(context.db)).toHaveLength(1);
});

test.each([
  ["no name", { ...copyStand, name: "  " }, "name"],
  ["an unknown method", { ...copyStand, method: "drum-scanner" }, "method"],
  ["a price in words", { ...copyStand, priceAmount: "cheap" }, "priceAmount"],
  ["a price without currency", { ...copyStand, priceCurrency: "" }, "priceCurrency"],
])("a set-up with %s is refused at the field", (_, input, field) => {
  const parsed = setUpInput.safeParse(input);
  expect(parsed.error?.issues.map((issue) => issue.path[0])).toEqual([field]);
});
