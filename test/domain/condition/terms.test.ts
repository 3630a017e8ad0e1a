import { describe, expect, test } from "vitest";
import { CAUTION_TABLE } from "#domain/condition/caution-table.ts";
import { COMMON_PRACTICE, FROM_MEMORY } from "#domain/condition/sources.ts";
import { TERM_GROUPS } from "#domain/condition/term.ts";
import { findTerm, TERMS, termsFor } from "#domain/condition/terms.ts";
import { findProcess, PROCESSES } from "#domain/print/process.ts";

test("no two terms share an id or a name", () => {
  expect(new Set(TERMS.map(({ id }) => id)).size).toBe(TERMS.length);
  expect(new Set(TERMS.map(({ name }) => name.toLowerCase())).size).toBe(TERMS.length);
});

describe("every term", () => {
  test.each(TERMS.map((term) => [term.id, term] as const))("%s has a definition, four levels that differ, and a source", (_id, term) => {
    expect(term.definition).toMatch(/^[A-Z].{15,}\.$/);
    expect(new Set(term.levels.map((level) => level.toLowerCase())).size).toBe(4);
    expect(term.sources.length).toBeGreaterThan(0);
    for (const source of term.sources) expect(source.length).toBeGreaterThan(10);
    expect(TERM_GROUPS).toContain(term.group);
  });

  test("says of none that it was read where it was remembered: an honest source stands alone", () => {
    const honest = TERMS.filter(({ sources }) => sources.some((source) => source === FROM_MEMORY || source === COMMON_PRACTICE));
    expect(honest.length).toBeGreaterThan(0);
    for (const { id, sources } of honest) expect(sources, id).toHaveLength(1);
  });

  test("befalls known processes only, each once", () => {
    for (const { id, befalls } of TERMS) {
      expect(befalls.filter((processId) => findProcess(processId) === null)).toEqual([]);
      expect(new Set(befalls).size, id).toBe(befalls.length);
    }
  });
});

test("every process has terms of every kind that can befall it, and an unknown process has them all", () => {
  for (const { id } of PROCESSES) {
    const groups = new Set(termsFor(id).map(({ group }) => group));
    for (const group of ["image", "stain", "layer", "support", "living", "hands"] as const) expect([...groups], id).toContain(group);
  }
  expect(termsFor("not-known")).toHaveLength(TERMS.length);
});

/** What a process is made of decides: no pod, no leak; no silver, no mirroring; no iron, no rust. */
const BEFALLS: readonly [term: string, can: string, cannot: string][] = [
  ["reagent-leak", "integral-instant-colour", "chromogenic"],
  ["neg-residue", "peel-apart-instant-colour", "integral-instant-colour"],
  ["silver-mirroring", "gelatin-silver-fibre", "inkjet"],
  ["tarnish", "daguerreotype", "tintype"],
  ["rust", "tintype", "daguerreotype"],
  ["colour-shift", "chromogenic", "gelatin-silver"],
  ["rc-crack", "gelatin-silver-resin-coated", "gelatin-silver-fibre"],
  ["gas-fade", "inkjet", "dye-sublimation"],
  ["tear", "albumen", "ambrotype"],
  ["flaking", "albumen", "cyanotype"],
];

test.each(BEFALLS)("%s can befall %s and not %s", (term, can, cannot) => {
  const offered = (processId: string) => termsFor(processId).some(({ id }) => id === term);
  expect(offered(can)).toBe(true);
  expect(offered(cannot)).toBe(false);
});

test("every term that a caution listens for is in the vocabulary", () => {
  const listened = CAUTION_TABLE.flatMap(({ terms }) => terms ?? []);
  expect(listened.length).toBeGreaterThan(20);
  expect(listened.filter((id) => findTerm(id) === null)).toEqual([]);
});
