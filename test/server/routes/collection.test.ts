import { expect, test } from "vitest";
import { readCollection } from "#drizzle/queries/collection.ts";
import { createApp } from "#server/app.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const send = (app: ReturnType<typeof createApp>, fields: Record<string, string>) =>
  app.request("/collection", { method: "POST", headers: { "Sec-Fetch-Site": "same-origin" }, body: new URLSearchParams(fields) });

test("the collection's name stands on every page once it is saved", async () => {
  const app = createApp(emptyCollection());
  expect((await send(app, { name: "Lindqvist <prints>", objectNumberPattern: "{year}.{lot:3}.{item:2}" })).status).toBe(303);
  const page = await (await app.request("/prints")).text();
  expect(page).toContain("Lindqvist &lt;prints&gt;");
  expect(await (await app.request("/collection")).text()).toMatch(/\d{4}\.001\.01/);
});

test.each([
  ["no name", { name: " ", objectNumberPattern: "{year}.{item:3}" }, "name"],
  ["a pattern that does not count", { name: "Prints", objectNumberPattern: "{year}" }, "objectNumberPattern"],
  ["a pattern with an open brace", { name: "Prints", objectNumberPattern: "{year.{item}" }, "objectNumberPattern"],
])("%s is refused at its field, and nothing is saved", async (_what, fields, field) => {
  const context = emptyCollection();
  const before = readCollection(context.db);
  const answer = await send(createApp(context), fields);
  expect(answer.status).toBe(422);
  expect(await answer.text()).toMatch(new RegExp(`<input[^>]*id="field-${field}"[^>]*aria-invalid="true"`));
  expect(readCollection(context.db)).toEqual(before);
});
