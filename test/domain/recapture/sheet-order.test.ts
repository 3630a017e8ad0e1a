import { expect, test } from "vitest";
import { inSheetOrder, type OrderedRow, placesOnSheet } from "#domain/recapture/sheet-order.ts";
import { seeded } from "../../../demo-collection/random.ts";

const row = (objectNumber: string, box: string, score: number, known: Partial<OrderedRow> = {}): OrderedRow => ({
  objectNumber,
  side: "front",
  placePath: ["Study", box],
  method: "copy-stand-camera",
  setUpName: null,
  priority: { score, most: score },
  ...known,
});
const numbers = (rows: readonly OrderedRow[]) => rows.map(({ objectNumber }) => objectNumber);

test("the box with the most urgent print comes first, and all that is in it before the next box is opened", () => {
  const rows = [row("1", "A", 5), row("2", "B", 9), row("3", "A", 8), row("4", "B", 1)];
  expect(numbers(inSheetOrder(rows))).toEqual(["2", "4", "3", "1"]);
});

test("in one box each set-up is set up once, the one with the most urgent print first", () => {
  const flatbed = { method: "flatbed-scanner" as const };
  const rows = [row("1", "A", 9), row("2", "A", 8, flatbed), row("3", "A", 7), row("4", "A", 6, flatbed)];
  expect(numbers(inSheetOrder(rows))).toEqual(["1", "3", "2", "4"]);
  // two set-ups of one method are not one
  const named = [row("1", "A", 9), row("2", "A", 8, { setUpName: "Stand" }), row("3", "A", 7)];
  expect(numbers(inSheetOrder(named))).toEqual(["1", "3", "2"]);
});

test("of equals the one that may be more urgent comes first, then the lower number, then the front", () => {
  const mayBeMore = { priority: { score: 4, most: 12 } };
  const rows = [row("1978.10", "A", 4), row("1978.9", "A", 4, { side: "back" }), row("1978.9", "A", 4), row("1979.1", "A", 4, mayBeMore)];
  expect(inSheetOrder(rows).map(({ objectNumber, side }) => `${objectNumber} ${side}`)).toEqual([
    "1979.1 front",
    "1978.9 front",
    "1978.9 back",
    "1978.10 front",
  ]);
});

test("boxes of one name in different rooms are two boxes", () => {
  const rows = [row("1", "Box 1", 3), { ...row("2", "Box 1", 2), placePath: ["Attic", "Box 1"] }, row("3", "Box 1", 1)];
  expect(placesOnSheet(inSheetOrder(rows)).map(({ placePath }) => placePath[0])).toEqual(["Study", "Attic"]);
  expect(numbers(inSheetOrder(rows))).toEqual(["1", "3", "2"]);
});

test.each(Array.from({ length: 40 }, (_, seed) => seed))(
  "rows drawn with seed %i: none is lost, each box is one part, each set-up in it one, and the most urgent of all comes first",
  (seed) => {
    const random = seeded(seed);
    const one = <T>(of: readonly T[]): T => of[Math.floor(random() * of.length)] as T;
    const rows = Array.from({ length: 1 + Math.floor(random() * 30) }, () =>
      row(String(Math.ceil(random() * 40)), "", Math.ceil(random() * 200), {
        side: one(["front", "back"] as const),
        placePath: one([["Study", "A"], ["Study", "B"], ["Study"], []]),
        method: one(["copy-stand-camera", "flatbed-scanner", null] as const),
        setUpName: one(["Stand", "Bed", null]),
      }),
    );
    const ordered = inSheetOrder(rows);
    expect(new Set(ordered)).toEqual(new Set(rows));
    expect(ordered).toHaveLength(rows.length);
    expect(ordered[0]?.priority.score).toBe(Math.max(...rows.map(({ priority }) => priority.score)));
    const places = placesOnSheet(ordered);
    expect(new Set(places.map(({ placePath }) => placePath.join("\n"))).size).toBe(places.length);
    for (const { setUps } of places)
      expect(new Set(setUps.map(({ method, setUpName }) => `${method} ${setUpName}`)).size).toBe(setUps.length);
    const parts = places.flatMap(({ setUps }) => setUps.map((each) => each.rows));
    expect(parts.flat()).toEqual(ordered);
    for (const part of parts)
      expect(part.map(({ priority }) => priority.score)).toEqual(part.map(({ priority }) => priority.score).toSorted((a, b) => b - a));
  },
);
