import { expect, test } from "vitest";
import { ALL_PRINTS, type PrintFilter } from "#domain/print/print-filter.ts";
import type { Database } from "#drizzle/client.ts";
import { insertCapture, insertOriginal, setCaptureDivided } from "#drizzle/queries/captures.ts";
import { insertPlace } from "#drizzle/queries/places.ts";
import {
  findPrint,
  insertPrint,
  listBinnedPrints,
  listObjectNumbers,
  listPrints,
  setPrintBinned,
  updatePrint,
} from "#drizzle/queries/prints.ts";
import { emptyCollection } from "../fixtures/collection.ts";
import { printValues } from "../fixtures/prints.ts";

const NOW = "2026-11-25T10:00:00.000Z";

const numbers = (db: Database, filter: Partial<PrintFilter>) =>
  listPrints(db, { ...ALL_PRINTS, ...filter }).rows.map((row) => row.objectNumber);

function enter(db: Database, objectNumber: string, known: Parameters<typeof printValues>[1] = {}, at = NOW): number {
  return insertPrint(db, printValues(objectNumber, known), at);
}

function capture(db: Database, printId: number | null, side: "front" | "back" = "front"): number {
  const sha256 = crypto.randomUUID().replaceAll("-", "").padEnd(64, "0");
  const original = insertOriginal(db, {
    sha256,
    bytes: 1,
    kind: "jpeg",
    originalName: "a.jpg",
    widthPx: 1,
    heightPx: 1,
    bitsPerChannel: 8,
    channels: 3,
    colourSpace: "srgb",
    profileName: null,
    metadataState: "none",
    metadataNote: null,
    capturedAt: null,
    deviceMake: null,
    deviceModel: null,
    lens: null,
    software: null,
    exposureTimeS: null,
    fNumber: null,
    isoSpeed: null,
    focalLengthMm: null,
    claimedPpiX: null,
    claimedPpiY: null,
  });
  return insertCapture(db, { originalId: original.id, printId, side }).id;
}

test("a print comes back as it was entered", () => {
  const { db } = emptyCollection();
  const values = printValues("1978.004.12", {
    title: "Picnic “at the weir”",
    people: ["Ada Lindqvist", "N. N. <unknown>"],
    subjects: ["weir"],
    sheetWidthMm: 88.5,
    significance: 4,
  });
  const id = insertPrint(db, values, NOW);
  expect(findPrint(db, id)).toMatchObject({ ...values, id, revision: 1, binnedAt: null, createdAt: NOW, updatedAt: NOW });
});

test("search finds a word in every written field, by its beginning, whatever its case and accents", () => {
  const { db } = emptyCollection();
  enter(db, "1", { title: "Café at the harbour" });
  enter(db, "2", { maker: "Studio Harbord" });
  enter(db, "3", { people: ["Ada Lindqvist"] });
  enter(db, "4", { inscriptionBack: "to my dear Linda" });
  enter(db, "5", { provenance: "harbour office", notes: "cafe owner" });
  expect(numbers(db, { search: "cafe" })).toEqual(["1", "5"]);
  expect(numbers(db, { search: "HARB" })).toEqual(["1", "2", "5"]);
  expect(numbers(db, { search: "lind" })).toEqual(["3", "4"]);
  expect(numbers(db, { search: "harb café" })).toEqual(["1", "5"]);
  expect(numbers(db, { search: "harb nobody" })).toEqual([]);
});

test.each(['tear "', '"', "a AND", "NOT", "NEAR(", "title:", "*", "-", "1978.004.12", "(", "a^b", "'; drop table prints --", "{col}: x"])(
  "the search text %s is taken as words, never as a command",
  (search) => {
    const { db } = emptyCollection();
    enter(db, "1978.004.12", { title: "A tear in the corner" });
    expect(() => numbers(db, { search })).not.toThrow();
  },
);

test("an object number is found whole and by its beginning", () => {
  const { db } = emptyCollection();
  enter(db, "1978.004.12");
  enter(db, "1978.004.2");
  enter(db, "1979.004.12");
  expect(numbers(db, { search: "1978.004.12" })).toEqual(["1978.004.12"]);
  expect(numbers(db, { search: "1978.004" })).toEqual(["1978.004.2", "1978.004.12"]);
});

test("search follows an edit", () => {
  const { db } = emptyCollection();
  const id = enter(db, "1", { title: "Orchard" });
  expect(updatePrint(db, id, 1, printValues("1", { title: "Meadow" }), NOW)).toBe(true);
  expect(numbers(db, { search: "orchard" })).toEqual([]);
  expect(numbers(db, { search: "meadow" })).toEqual(["1"]);
});

test("a place means itself and every place inside it", () => {
  const { db } = emptyCollection();
  const study = insertPlace(db, { parentId: null, kind: "room", name: "Study" });
  const cabinet = insertPlace(db, { parentId: study, kind: "cabinet", name: "Cabinet 2" });
  const box = insertPlace(db, { parentId: cabinet, kind: "box", name: "Box 4" });
  const attic = insertPlace(db, { parentId: null, kind: "room", name: "Attic" });
  enter(db, "1", { placeId: study });
  enter(db, "2", { placeId: box });
  enter(db, "3", { placeId: attic });
  enter(db, "4");
  expect(numbers(db, { placeId: study })).toEqual(["1", "2"]);
  expect(numbers(db, { placeId: cabinet })).toEqual(["2"]);
  expect(numbers(db, { placeId: attic })).toEqual(["3"]);
});

test("dates are found when they can lie inside the span, open ends and all", () => {
  const { db } = emptyCollection();
  const dated = (number: string, date: string, dateEarliest: string | null, dateLatest: string | null) =>
    enter(db, number, { date, dateEarliest, dateLatest });
  dated("day", "1978-06-21", "1978-06-21", "1978-06-21");
  dated("decade", "197X", "1970-01-01", "1979-12-31");
  dated("since", "1985/..", "1985-01-01", null);
  dated("before", "../1950", null, "1950-12-31");
  enter(db, "undated");
  expect(numbers(db, { firstDay: "1978-06-21", lastDay: "1978-06-21" }).sort()).toEqual(["day", "decade"]);
  expect(numbers(db, { firstDay: "1979-01-01", lastDay: "1979-12-31" })).toEqual(["decade"]);
  expect(numbers(db, { firstDay: "2000-01-01", lastDay: null })).toEqual(["since"]);
  expect(numbers(db, { firstDay: null, lastDay: "1940-12-31" })).toEqual(["before"]);
});

test("sorting by number counts digits, and by date puts the undated last both ways", () => {
  const { db } = emptyCollection();
  enter(db, "1978.10", { date: "1990", dateEarliest: "1990-01-01", dateLatest: "1990-12-31", title: "b" });
  enter(db, "1978.9", { date: "1980", dateEarliest: "1980-01-01", dateLatest: "1980-12-31", title: "A" });
  enter(db, "1978.100", { title: "c" });
  expect(numbers(db, { sort: "number" })).toEqual(["1978.9", "1978.10", "1978.100"]);
  expect(numbers(db, { sort: "number", direction: "down" })).toEqual(["1978.100", "1978.10", "1978.9"]);
  expect(numbers(db, { sort: "date" })).toEqual(["1978.9", "1978.10", "1978.100"]);
  expect(numbers(db, { sort: "date", direction: "down" })).toEqual(["1978.10", "1978.9", "1978.100"]);
  expect(numbers(db, { sort: "title" })).toEqual(["1978.9", "1978.10", "1978.100"]);
});

test("pages hold every print once, even when all have the same title", () => {
  const { db } = emptyCollection();
  for (let n = 1; n <= 23; n++) enter(db, `A.${n}`, { title: "Untitled snapshot" });
  const pages = [1, 2, 3, 4].map((page) => listPrints(db, { ...ALL_PRINTS, sort: "title", page, perPage: 10 }));
  expect(pages.map((page) => page.rows.length)).toEqual([10, 10, 3, 0]);
  expect(pages.map((page) => page.total)).toEqual([23, 23, 23, 23]);
  expect(new Set(pages.flatMap((page) => page.rows.map((row) => row.id))).size).toBe(23);
});

test("the list shows the newest capture of the front, and counts what is not a divided bed", () => {
  const { db } = emptyCollection();
  const print = enter(db, "1");
  const bare = enter(db, "2");
  const first = capture(db, print);
  const newest = capture(db, print);
  capture(db, print, "back");
  const bed = capture(db, print);
  setCaptureDivided(db, bed);
  const rows = new Map(listPrints(db, ALL_PRINTS).rows.map((row) => [row.id, row]));
  expect(first).toBeLessThan(newest);
  expect(rows.get(print)).toMatchObject({ captureCount: 3, captureId: newest });
  expect(rows.get(bare)).toMatchObject({ captureCount: 0, captureId: null });
  expect(numbers(db, { captures: "with" })).toEqual(["1"]);
  expect(numbers(db, { captures: "without" })).toEqual(["2"]);
});

test("the list shows the current master rather than the newest capture", () => {
  const { db } = emptyCollection();
  const print = enter(db, "1");
  const master = capture(db, print);
  const newest = capture(db, print);
  db.$client.exec(`
    INSERT INTO choices (print_id, side, purpose_id, aim_id, capture_id, decided_by, sentence, explanation, superseded_at)
    VALUES (${print}, 'front', 1, 1, ${newest}, 'rule', 's', '{}', '2026-01-01'),
           (${print}, 'front', 1, 1, ${master}, 'rule', 's', '{}', NULL),
           (${print}, 'front', 3, 3, ${newest}, 'rule', 's', '{}', NULL)`);
  expect(listPrints(db, ALL_PRINTS).rows[0]?.captureId).toBe(master);
});

test("a binned print leaves the list and keeps its number", () => {
  const { db } = emptyCollection();
  const id = enter(db, "1", { title: "Orchard" });
  enter(db, "2");
  setPrintBinned(db, id, NOW);
  expect(numbers(db, {})).toEqual(["2"]);
  expect(numbers(db, { search: "orchard" })).toEqual([]);
  expect(listObjectNumbers(db).sort()).toEqual(["1", "2"]);
  expect(listBinnedPrints(db).map((print) => print.objectNumber)).toEqual(["1"]);
  expect(() => enter(db, "1")).toThrow(/UNIQUE/);
});

test("saving over a revision that is no longer the last changes nothing", () => {
  const { db } = emptyCollection();
  const id = enter(db, "1", { title: "Orchard" });
  expect(updatePrint(db, id, 1, printValues("1", { title: "Meadow" }), NOW)).toBe(true);
  expect(updatePrint(db, id, 1, printValues("1", { title: "Field" }), NOW)).toBe(false);
  expect(findPrint(db, id)).toMatchObject({ title: "Meadow", revision: 2 });
});
