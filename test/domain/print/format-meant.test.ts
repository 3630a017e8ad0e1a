import { expect, test } from "vitest";
import { FORMATS } from "#domain/print/format.ts";
import { formatsMeant } from "#domain/print/format-meant.ts";

test.each(FORMATS.map(({ id, name }) => [id, name]))("of all formats, %s is the one most like its own id and its own name", (id, name) => {
  expect(formatsMeant(id)[0]?.id).toBe(id);
  expect(formatsMeant(name)[0]?.name).toBe(name);
});

test.each([
  ["integral-large-sqare", "integral-large-square"],
  ["Carte de Visite", "carte-de-visite"],
  ["half plat", "half-plate"],
  ["4×6", "sheet-4r"],
])("what was nearly typed right, %s, is known again as %s", (typed, id) => {
  expect(formatsMeant(typed)[0]?.id).toBe(id);
});

test.each(["nonsense", "", "x", "random words", "00000"])("nothing is proposed for “%s”, and never more than three", (typed) => {
  expect(formatsMeant(typed)).toEqual([]);
  expect(formatsMeant("integral")).toHaveLength(3);
});
