import { expect, test } from "vitest";
import { placeInput } from "#domain/storage/place-input.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { findPlace, listPlaces, placePath } from "#drizzle/queries/places.ts";
import { createPlace } from "#server/actions/create-place.ts";
import { editCollection } from "#server/actions/edit-collection.ts";
import { editPlace } from "#server/actions/edit-place.ts";
import type { Context } from "#server/context.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const box = (name: string, parentId: number | null = null) =>
  placeInput.parse({ kind: "box", name, parentId: parentId === null ? "" : String(parentId) });

const edited = (context: Context, placeId: number, input: ReturnType<typeof box>) =>
  editPlace(context, { placeId, readRevision: findPlace(context.db, placeId)?.revision ?? 0, input });

function made(context: Context, name: string, parentId: number | null = null): number {
  const outcome = createPlace(context, box(name, parentId));
  if (!outcome.ok) throw new Error(outcome.refusals[0]?.happened);
  return outcome.value.placeId;
}

const verbs = (context: Context) =>
  context.db.$client.prepare("SELECT verb || ' ' || subject FROM events WHERE subject = 'place' ORDER BY id").pluck().all();

test("a place stands inside another, and its making is in the history", () => {
  const context = emptyCollection();
  const study = made(context, "Study");
  const inside = made(context, "Box 4", study);
  expect(findPlace(context.db, inside)).toMatchObject({ name: "Box 4", parentId: study });
  expect(verbs(context)).toEqual(["created place", "created place"]);
});

test("two places share a name only in different parents", () => {
  const context = emptyCollection();
  const study = made(context, "Study");
  made(context, "Box 4", study);
  made(context, "Box 4");
  expect(createPlace(context, box("box 4", study))).toMatchObject({ ok: false, refusals: [{ about: "name" }] });
  expect(createPlace(context, box("Box 4"))).toMatchObject({ ok: false, refusals: [{ about: "name" }] });
  expect(createPlace(context, box("Box 5", 4711))).toMatchObject({
    ok: false,
    refusals: [{ about: "parentId" }],
  });
  expect(listPlaces(context.db)).toHaveLength(3);
});

test("another name is kept with the old one in the history, and the same name writes nothing", () => {
  const context = emptyCollection();
  const four = made(context, "Box 4");
  made(context, "Box 5");
  expect(edited(context, four, box("Box 5"))).toMatchObject({ ok: false, refusals: [{ about: "name" }] });
  expect(edited(context, four, box("Box 4"))).toMatchObject({ ok: true, value: { changed: [] } });
  expect(edited(context, four, box("BOX 4"))).toMatchObject({ ok: true, value: { changed: ["name"] } });
  expect(findPlace(context.db, four)).toMatchObject({ name: "BOX 4", revision: 2 });
  expect(verbs(context)).toEqual(["created place", "created place", "edited place"]);
});

test("a place is stood inside another with all that is in it, but never inside itself or what it holds", () => {
  const context = emptyCollection();
  const [study, cabinet] = [made(context, "Study"), made(context, "Cabinet")];
  const four = made(context, "Box 4", cabinet);
  expect(edited(context, cabinet, box("Cabinet", study)).ok).toBe(true);
  expect(placePath(context.db, four)).toEqual(["Study", "Cabinet", "Box 4"]);
  for (const [placeId, name] of [
    [study, "Study"],
    [cabinet, "Cabinet"],
    [four, "Box 4"],
  ] as const)
    expect(edited(context, placeId, box(name, four))).toMatchObject({ ok: false, refusals: [{ about: "parentId" }] });
  expect(placePath(context.db, four)).toEqual(["Study", "Cabinet", "Box 4"]);
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
