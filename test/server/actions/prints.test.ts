import { expect, test } from "vitest";
import { historyOfPrint } from "#drizzle/queries/events.ts";
import { findPrint, listObjectNumbers } from "#drizzle/queries/prints.ts";
import { binPrint } from "#server/actions/bin-print.ts";
import { createPrint } from "#server/actions/create-print.ts";
import { editPrint } from "#server/actions/edit-print.ts";
import { restorePrint } from "#server/actions/restore-print.ts";
import type { Context } from "#server/context.ts";
import { emptyCollection } from "../../fixtures/collection.ts";
import { printValues } from "../../fixtures/prints.ts";

function created(context: Context, objectNumber: string, known: Parameters<typeof printValues>[1] = {}): number {
  const made = createPrint(context, printValues(objectNumber, known));
  if (!made.ok) throw new Error(made.refusals[0]?.happened);
  return made.value.printId;
}

test("a new print is in the collection, with one line of history that holds what was entered", () => {
  const context = emptyCollection();
  const printId = created(context, "1978.004", { title: "Picnic", people: ["Ada"] });
  expect(findPrint(context.db, printId)).toMatchObject({ objectNumber: "1978.004", title: "Picnic", revision: 1 });
  expect(historyOfPrint(context.db, printId)).toMatchObject([
    {
      verb: "created",
      who: "Keeper",
      detail: { to: { objectNumber: "1978.004", title: "Picnic", people: ["Ada"], processId: "not-known" } },
    },
  ]);
});

test("a number is refused when another print has it, and nothing is written", () => {
  const context = emptyCollection();
  created(context, "1978.004", { title: "Picnic" });
  const refused = createPrint(context, printValues("1978.004"));
  expect(refused).toMatchObject({
    ok: false,
    refusals: [{ about: "objectNumber", happened: "Number 1978.004 already belongs to “Picnic”." }],
  });
  expect(listObjectNumbers(context.db)).toEqual(["1978.004"]);
});

test("the number of a print in the bin is never given again", () => {
  const context = emptyCollection();
  const binned = created(context, "1978.004");
  const other = created(context, "1978.005");
  binPrint(context, { printId: binned });
  expect(createPrint(context, printValues("1978.004"))).toMatchObject({ ok: false, refusals: [{ about: "objectNumber" }] });
  expect(editPrint(context, { printId: other, readRevision: 1, input: printValues("1978.004") })).toMatchObject({ ok: false });
  restorePrint(context, { printId: binned });
  expect(findPrint(context.db, binned)).toMatchObject({ objectNumber: "1978.004", binnedAt: null });
});

test("a place that is not there is refused at its field", () => {
  expect(createPrint(emptyCollection(), printValues("1", { placeId: 4711 }))).toMatchObject({
    ok: false,
    refusals: [{ about: "placeId" }],
  });
});

test("an edit keeps what stood there before in the history, only for the fields that changed", () => {
  const context = emptyCollection();
  const printId = created(context, "1", { title: "Picnic", maker: "Ada", subjects: ["weir"] });
  const edited = editPrint(context, {
    printId,
    readRevision: 1,
    input: printValues("1", { title: "Picnic at the weir", maker: null, subjects: ["weir"] }),
  });
  expect(edited).toEqual({ ok: true, value: { printId, changed: ["title", "maker"] } });
  expect(findPrint(context.db, printId)).toMatchObject({ title: "Picnic at the weir", maker: null, revision: 2 });
  expect(historyOfPrint(context.db, printId)[0]).toMatchObject({
    verb: "edited",
    detail: { from: { title: "Picnic", maker: "Ada" }, to: { title: "Picnic at the weir", maker: null } },
  });
});

test("saving without a change writes nothing, neither revision nor history", () => {
  const context = emptyCollection();
  const printId = created(context, "1", { title: "Picnic" });
  expect(editPrint(context, { printId, readRevision: 1, input: printValues("1", { title: "Picnic" }) })).toEqual({
    ok: true,
    value: { printId, changed: [] },
  });
  expect(findPrint(context.db, printId)?.revision).toBe(1);
  expect(historyOfPrint(context.db, printId)).toHaveLength(1);
});

test("the second of two people is told, and overwrites nothing unseen", () => {
  const context = emptyCollection();
  const printId = created(context, "1", { title: "Picnic" });
  expect(editPrint(context, { printId, readRevision: 1, input: printValues("1", { title: "First" }) }).ok).toBe(true);
  const second = editPrint(context, { printId, readRevision: 1, input: printValues("1", { title: "Second" }) });
  expect(second).toMatchObject({ ok: false, refusals: [{ about: "revision" }] });
  expect(findPrint(context.db, printId)?.title).toBe("First");
  expect(editPrint(context, { printId, readRevision: 2, input: printValues("1", { title: "Second" }) }).ok).toBe(true);
});

test.each([
  ["a revision that is no number", Number.NaN],
  ["a revision of the future", 99],
])("%s is treated as a stranger's", (_what, readRevision) => {
  const context = emptyCollection();
  const printId = created(context, "1");
  expect(editPrint(context, { printId, readRevision, input: printValues("1", { title: "x" }) }).ok).toBe(false);
});

test("another size has the print's captures measured anew, another title has not", () => {
  let nudges = 0;
  const context = { ...emptyCollection(), nudgeWork: () => void nudges++ };
  const printId = created(context, "1");
  const sha256 = "a".repeat(64);
  context.db.$client.exec(`
    INSERT INTO originals (id, uuid, sha256, bytes, kind, original_name, width_px, height_px, bits_per_channel, channels, colour_space, metadata_state)
    VALUES (1, 'u1', '${sha256}', 1, 'jpeg', 'a.jpg', 1, 1, 8, 3, 'srgb', 'none');
    INSERT INTO captures (id, uuid, original_id, print_id) VALUES (1, 'u2', 1, ${printId})`);
  const waiting = () => context.db.$client.prepare("SELECT count(*) FROM work WHERE state = 'waiting'").pluck().get();
  editPrint(context, { printId, readRevision: 1, input: printValues("1", { title: "x" }) });
  expect([waiting(), nudges]).toEqual([0, 0]);
  editPrint(context, { printId, readRevision: 2, input: printValues("1", { title: "x", sheetWidthMm: 88.5, sheetHeightMm: 107.5 }) });
  expect([waiting(), nudges]).toEqual([1, 1]);
});

test("binning twice keeps the first date and writes one line of history", () => {
  let minute = 0;
  const context = { ...emptyCollection(), now: () => `2026-11-25T10:0${minute++}:00.000Z` };
  const printId = created(context, "1");
  binPrint(context, { printId });
  const first = findPrint(context.db, printId)?.binnedAt;
  binPrint(context, { printId });
  expect(findPrint(context.db, printId)?.binnedAt).toBe(first);
  expect(historyOfPrint(context.db, printId).map((line) => line.verb)).toEqual(["binned", "created"]);
});

test("a print in the bin is not edited", () => {
  const context = emptyCollection();
  const printId = created(context, "1");
  binPrint(context, { printId });
  expect(editPrint(context, { printId, readRevision: 1, input: printValues("1", { title: "x" }) })).toMatchObject({ ok: false });
  expect(findPrint(context.db, printId)?.title).toBe("");
});

test("a change whose history cannot be written does not happen", () => {
  const context = emptyCollection();
  const printId = created(context, "1", { title: "Picnic" });
  context.db.$client.exec("CREATE TRIGGER no_history BEFORE INSERT ON events BEGIN SELECT raise(ABORT, 'disk full'); END");
  expect(() => editPrint(context, { printId, readRevision: 1, input: printValues("1", { title: "x" }) })).toThrow("disk full");
  expect(() => createPrint(context, printValues("2"))).toThrow("disk full");
  expect(() => binPrint(context, { printId })).toThrow("disk full");
  expect(findPrint(context.db, printId)).toMatchObject({ title: "Picnic", revision: 1, binnedAt: null });
  expect(listObjectNumbers(context.db)).toEqual(["1"]);
});
