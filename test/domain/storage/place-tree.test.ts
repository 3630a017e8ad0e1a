import { expect, test } from "vitest";
import type { PlaceListed } from "#domain/storage/place.ts";
import { flatten, pathInWords, placeTree } from "#domain/storage/place-tree.ts";

const place = (id: number, parentId: number | null, name: string, printCount = 0): PlaceListed => ({
  id,
  parentId,
  name,
  printCount,
  kind: "box",
  enclosureKind: null,
  enclosureMaterial: null,
  note: null,
  revision: 1,
  createdAt: "2026-11-25",
});

test("places stand inside one another, with the prints of all that is inside", () => {
  const tree = placeTree([place(3, 2, "Box 4", 5), place(1, null, "Study", 1), place(2, 1, "Cabinet 2"), place(4, null, "Attic", 7)]);
  expect(tree.map((node) => [node.name, node.printCountInside])).toEqual([
    ["Attic", 7],
    ["Study", 6],
  ]);
  expect(flatten(tree).map((node) => pathInWords(node.path))).toEqual(["Attic", "Study", "Study › Cabinet 2", "Study › Cabinet 2 › Box 4"]);
});

test("numbers in names are counted, so that box 9 stands before box 10", () => {
  expect(placeTree([place(1, null, "Box 10"), place(2, null, "Box 9")]).map((node) => node.name)).toEqual(["Box 9", "Box 10"]);
});
