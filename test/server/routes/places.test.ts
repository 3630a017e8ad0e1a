import type { Hono } from "hono";
import { expect, test } from "vitest";
import { findPlace } from "#drizzle/queries/places.ts";
import { createApp } from "#server/app.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const send = (app: Hono, path: string, fields: Record<string, string>) =>
  app.request(path, { method: "POST", headers: { "Sec-Fetch-Site": "same-origin" }, body: new URLSearchParams(fields) });

const page = async (app: Hono, path: string) => (await app.request(path)).text();

test("a place says what its prints lie in, what that is made of, what to mind of it, and a note", async () => {
  const context = emptyCollection();
  const app = createApp(context);
  const fields = { kind: "album", name: "Blue album", enclosureKind: "sleeve", enclosureMaterial: "pvc", note: "smells\nof <vinyl>" };
  expect((await send(app, "/places", fields)).status).toBe(303);
  expect(findPlace(context.db, 1)).toMatchObject({ enclosureKind: "sleeve", enclosureMaterial: "pvc", note: "smells\nof <vinyl>" });
  const html = await page(app, "/places");
  expect(html).toContain("Sleeve, PVC (vinyl)");
  expect(html).toContain("take the prints out");
  expect(html).toContain("Visual Glossary");
  expect(html).toContain("smells\nof &lt;vinyl&gt;");
});

test("a place without enclosure says nothing of one", async () => {
  const app = createApp(emptyCollection());
  await send(app, "/places", { kind: "room", name: "Study" });
  expect(await page(app, "/places")).not.toContain("place-enclosure");
});

test("editing shows what is said, saves what changes, and tells it in the place's history", async () => {
  const context = emptyCollection();
  const app = createApp(context);
  await send(app, "/places", { kind: "box", name: "Box 4", enclosureKind: "envelope", note: "damp" });
  const form = await page(app, "/places/1/edit");
  expect(form).toMatch(/<option value="envelope" selected/);
  const fields = { kind: "box", name: "Box 4", enclosureKind: "four-flap", enclosureMaterial: "paper-buffered", note: "", revision: "1" };
  expect((await send(app, "/places/1", fields)).headers.get("location")).toBe("/places?done=place-saved#place-1");
  expect(findPlace(context.db, 1)).toMatchObject({ enclosureKind: "four-flap", enclosureMaterial: "paper-buffered", note: null });
  expect(await page(app, "/places/1/edit")).toContain("Note from “damp” to nothing");
  expect((await send(app, "/places/1", { ...fields, revision: "2" })).headers.get("location")).toContain("done=place-unchanged");
});

test("two people who edit one place: the second sees both texts in words, and may then save", async () => {
  const context = emptyCollection();
  const app = createApp(context);
  await send(app, "/places", { kind: "box", name: "Box 4" });
  await send(app, "/places/1", { kind: "box", name: "Box 4", enclosureMaterial: "polyester", revision: "1" });
  const answer = await send(app, "/places/1", { kind: "box", name: "Box 4", enclosureMaterial: "pvc", revision: "1" });
  const html = await answer.text();
  expect(answer.status).toBe(409);
  expect(html).toContain('<td class="as-typed">Polyester, uncoated</td>');
  expect(html).toContain('<td class="as-typed">PVC (vinyl)</td>');
  expect(findPlace(context.db, 1)?.enclosureMaterial).toBe("polyester");
  expect((await send(app, "/places/1", { kind: "box", name: "Box 4", enclosureMaterial: "pvc", revision: "2" })).status).toBe(303);
});

test("an enclosure that is not in the list is refused at its field, and a place that does not exist is not found", async () => {
  const app = createApp(emptyCollection());
  const answer = await send(app, "/places", { kind: "box", name: "Box 4", enclosureMaterial: "gold" });
  expect(answer.status).toBe(422);
  expect(await answer.text()).toContain("Choose a material from the list, or none.");
  expect((await app.request("/places/9/edit")).status).toBe(404);
});

test("the form for the next place keeps kind and parent after saving and after a refusal", async () => {
  const app = createApp(emptyCollection());
  await send(app, "/places", { kind: "room", name: "Study" });
  const saved = await send(app, "/places", { kind: "box", name: "Box 4", parentId: "1" });
  const next = await page(app, (saved.headers.get("location") ?? "").replace(/#.*/, ""));
  expect(next).toMatch(/<option value="box" selected/);
  expect(next).toMatch(/<option value="1" selected/);
  const refused = await (await send(app, "/places", { kind: "album", name: "", parentId: "1" })).text();
  expect(refused).toMatch(/<option value="album" selected/);
  expect(refused).toMatch(/<option value="1" selected/);
});

test("an empty place can be deleted, one with another place in it cannot", async () => {
  const context = emptyCollection();
  const app = createApp(context);
  await send(app, "/places", { kind: "room", name: "Study" });
  await send(app, "/places", { kind: "box", name: "Box 4", parentId: "1" });
  const refused = await send(app, "/places/1/delete", {});
  expect(refused.status).toBe(422);
  expect(await refused.text()).toContain("Study is not empty: in it there is 1 other place.");
  expect((await send(app, "/places/2/delete", {})).headers.get("location")).toBe("/places?done=place-deleted");
  expect(findPlace(context.db, 2)).toBeNull();
  expect((await send(app, "/places/1/delete", {})).status).toBe(303);
});

test("a place moves into another one and changes its kind", async () => {
  const context = emptyCollection();
  const app = createApp(context);
  for (const name of ["Study", "Attic"]) await send(app, "/places", { kind: "room", name });
  await send(app, "/places", { kind: "box", name: "Box 4", parentId: "1" });
  await send(app, "/places/3", { kind: "album", name: "Box 4", parentId: "2", revision: "1" });
  expect(findPlace(context.db, 3)).toMatchObject({ parentId: 2, kind: "album" });
});
