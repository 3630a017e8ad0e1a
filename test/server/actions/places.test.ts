import { expect, test } from "vitest";
import { readCollection } from "#drizzle/queries/collection.ts";
import { findPlace, listPlaces } from "#drizzle/queries/places.ts";
import { createPlace } from "#server/actions/create-place.ts";
import { editCollection } from "#server/actions/edit-collection.ts";
import { renamePlace } from "#server/actions/rename-place.ts";
import type { Context } from "#server/context.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

function made(context: Context, name: string, parentId: number | null = null): number {
  const outcome = createPlace(context, { kind: "box", name, parentId });
  if (!outcome.ok) throw new Error(outcome.refusals[0]?.happened);
  return outcome.value.placeId;
}

const verbs = (context: Context) =>
  context.db.$client.prepare("SELECT verb || ' ' || subject FROM events WHERE subject = 'place' ORDER BY id").pluck().all();

test("a place stands inside another, and its making is in the history", () => {
  const context = emptyCollection();
  const study = made(context, "Study");
  const box = made(context, "Box 4", study);
  expect(findPlace(context.db, box)).toMatchObject({ name: "Box 4", parentId: study });
  expect(verbs(context)).toEqual(["created place", "created place"]);
});

test("two places share a name only in different parents", () => {
  const context = emptyCollection();
  const study = made(context, "Study");
  made(context, "Box 4", study);
  made(context, "Box 4");
  expect(createPlace(context, { kind: "box", name: "box 4", parentId: study })).toMatchObject({ ok: false, refusals: [{ about: "name" }] });
  expect(createPlace(context, { kind: "box", name: "Box 4", parentId: null })).toMatchObject({ ok: false, refusals: [{ about: "name" }] });
  expect(createPlace(context, { kind: "box", name: "Box 5", parentId: 4711 })).toMatchObject({
    ok: false,
    refusals: [{ about: "parentId" }],
  });
  expect(listPlaces(context.db)).toHaveLength(3);
});

test("renaming keeps the old name in the history, and the same name writes nothing", () => {
  const context = emptyCollection();
  const box = made(context, "Box 4");
  made(context, "Box 5");
  expect(renamePlace(context, { placeId: box, newName: "Box 5" })).toMatchObject({ ok: false, refusals: [{ about: "newName" }] });
  expect(renamePlace(context, { placeId: box, newName: "Box 4" }).ok).toBe(true);
  expect(renamePlace(context, { placeId: box, newName: "BOX 4" }).ok).toBe(true);
  expect(findPlace(context.db, box)?.name).toBe("BOX 4");
  expect(verbs(context)).toEqual(["created place", "created place", "renamed place"]);
});

test("the collection's name and pattern change together, with the old ones in the history", () => {
  const context = emptyCollection();
  const before = readCollection(context.db);
  editCollection(context, { name: "Lindqvist prints", objectNumberPattern: "{year}.{lot:3}.{item:2}" });
  expect(readCollection(context.db)).toMatchObject({ name: "Lindqvist prints", objectNumberPattern: "{year}.{lot:3}.{item:2}" });
  const detail = context.db.$client.prepare("SELECT detail FROM events WHERE subject = 'collection'").pluck().get() as string;
  expect(JSON.parse(detail)).toEqual({
    from: { name: before.name, objectNumberPattern: before.objectNumberPattern },
    to: { name: "Lindqvist prints", objectNumberPattern: "{year}.{lot:3}.{item:2}" },
  });
});
