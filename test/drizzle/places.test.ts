import { expect, test } from "vitest";
import { enclosureMaterialAt, findPlaceByName, insertPlace, listPlaces, placePath } from "#drizzle/queries/places.ts";
import { insertPrint, setPrintBinned } from "#drizzle/queries/prints.ts";
import { emptyCollection } from "../fixtures/collection.ts";
import { printValues } from "../fixtures/prints.ts";

const NOW = "2026-11-25T10:00:00.000Z";

test("the path goes from the outermost place inwards", () => {
  const { db } = emptyCollection();
  const study = insertPlace(db, { parentId: null, kind: "room", name: "Study" });
  const cabinet = insertPlace(db, { parentId: study, kind: "cabinet", name: "Cabinet 2" });
  const box = insertPlace(db, { parentId: cabinet, kind: "box", name: "Box 4" });
  expect(placePath(db, box)).toEqual(["Study", "Cabinet 2", "Box 4"]);
  expect(placePath(db, 4711)).toEqual([]);
});

test("prints are counted where they lie, those in the bin are not", () => {
  const { db } = emptyCollection();
  const box = insertPlace(db, { parentId: null, kind: "box", name: "Box 4" });
  insertPlace(db, { parentId: null, kind: "box", name: "Box 5" });
  insertPrint(db, printValues("1", { placeId: box }), NOW);
  setPrintBinned(db, insertPrint(db, printValues("2", { placeId: box }), NOW), NOW);
  expect(listPlaces(db).map((place) => [place.name, place.printCount])).toEqual([
    ["Box 4", 1],
    ["Box 5", 0],
  ]);
});

test("a name is looked for in its own parent, whatever its case", () => {
  const { db } = emptyCollection();
  const study = insertPlace(db, { parentId: null, kind: "room", name: "Study" });
  const inside = insertPlace(db, { parentId: study, kind: "box", name: "Box 4" });
  expect(findPlaceByName(db, study, "BOX 4")?.id).toBe(inside);
  expect(findPlaceByName(db, null, "Box 4")).toBeNull();
});

test("prints lie in what is said of their place, or of the nearest around it", () => {
  const { db } = emptyCollection();
  const shelf = insertPlace(db, { parentId: null, kind: "shelf", name: "Shelf", enclosureMaterial: "polyester" });
  const box = insertPlace(db, { parentId: shelf, kind: "box", name: "Box", enclosureMaterial: "pvc" });
  const sleeve = insertPlace(db, { parentId: box, kind: "sleeve", name: "Sleeve" });
  expect(enclosureMaterialAt(db, sleeve)).toBe("pvc");
  expect(enclosureMaterialAt(db, shelf)).toBe("polyester");
  expect(enclosureMaterialAt(db, insertPlace(db, { parentId: null, kind: "box", name: "Other" }))).toBeNull();
  expect(enclosureMaterialAt(db, null)).toBeNull();
});
