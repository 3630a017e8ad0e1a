import { describe, expect, test } from "vitest";
import { METHODS } from "#domain/capture/method.ts";
import { CAUTION_TABLE } from "#domain/condition/caution-table.ts";
import { type Circumstances, cautionsFor, contraIndication } from "#domain/condition/cautions-for.ts";

const sound: Circumstances = {
  processId: "chromogenic",
  formatId: "sheet-4r",
  processedOn: "1985-06-01",
  today: "2026-11-25",
  findings: [],
};
const found = (term: string, severity = 2) => ({ ...sound, findings: [{ term, severity }] });
const ids = (circumstances: Circumstances) => cautionsFor(circumstances).map(({ id }) => id);

/** Each caution by a case in which it must be said and the nearest case in which it must not. */
const CASES: Readonly<Record<string, { said: Circumstances; silent: Circumstances }>> = {
  "leaking-reagent": {
    said: { ...found("reagent-leak"), processId: "integral-instant-colour" },
    silent: { ...found("reagent-leak", 0), processId: "integral-instant-colour" },
  },
  "nitrate-decay": { said: found("nitrate-decay"), silent: found("vinegar") },
  "cased-do-not-open": { said: { ...sound, processId: "daguerreotype" }, silent: { ...sound, processId: "albumen" } },
  "vinegar-vapour": { said: found("vinegar"), silent: found("nitrate-decay") },
  mould: { said: found("mould", 1), silent: found("mould", 0) },
  pests: { said: found("insect"), silent: found("flyspeck") },
  "lifting-image-layer": { said: found("flaking", 1), silent: found("scratch", 4) },
  "sticky-surface": { said: found("ferrotyping"), silent: found("fading") },
  "stuck-to-glass": { said: found("blocking"), silent: found("stain") },
  "broken-glass": { said: found("broken-support"), silent: found("tear") },
  "fresh-integral": {
    said: { ...sound, processId: "integral-instant-colour", processedOn: "2026-10-26" },
    silent: { ...sound, processId: "integral-instant-colour", processedOn: "2026-10-25" },
  },
  "fresh-peel-apart": {
    said: { ...sound, processId: "peel-apart-instant-colour", processedOn: "2026-11-18" },
    silent: { ...sound, processId: "peel-apart-instant-colour", processedOn: "2026-11-17" },
  },
  "negative-residue": {
    said: { ...found("neg-residue"), processId: "peel-apart-instant-monochrome" },
    silent: { ...sound, processId: "peel-apart-instant-monochrome" },
  },
  "integral-do-not-open": { said: { ...sound, processId: "integral-instant-monochrome" }, silent: sound },
  "do-not-flex": { said: { ...sound, processId: "albumen" }, silent: { ...sound, processId: "gelatin-silver" } },
  "no-heat": { said: { ...sound, processId: "direct-thermal" }, silent: { ...sound, processId: "inkjet" } },
  "no-liquid-cleaner": {
    said: { ...sound, processId: "integral-instant-colour" },
    silent: { ...sound, processId: "peel-apart-instant-colour" },
  },
  "keep-apart": { said: { ...sound, processId: "integral-instant-colour" }, silent: sound },
  curled: { said: found("curl"), silent: found("fingerprint") },
  "brittle-or-torn": { said: found("tear"), silent: found("hole") },
  "mounted-on-card": { said: { ...sound, formatId: "carte-de-visite" }, silent: sound },
  "light-dose": { said: { ...sound, processId: "peel-apart-instant-colour" }, silent: sound },
  "no-rollers-for-originals": { said: { ...sound, method: "sheet-fed-scanner" }, silent: { ...sound, method: "flatbed-scanner" } },
  "unknown-process": { said: { ...sound, processId: "not-known" }, silent: sound },
};

describe("every caution is said in its case and silent in the case beside it", () => {
  test.each(Object.entries(CASES))("%s", (id, { said, silent }) => {
    expect(ids(said)).toContain(id);
    expect(ids(silent)).not.toContain(id);
  });

  test("the cases cover the whole table but the caution that holds for every print", () => {
    expect(CAUTION_TABLE.map(({ id }) => id).filter((id) => !(id in CASES))).toEqual(["hands"]);
    expect(ids(sound)).toEqual(["hands"]);
  });
});

test("an integral print whose day of processing nobody recorded is treated as fresh, and told so", () => {
  const fresh = cautionsFor({ ...sound, processId: "integral-instant-colour", processedOn: null }).find(
    ({ id }) => id === "fresh-integral",
  );
  expect(fresh?.cause).toMatch(/Nobody recorded/);
});

test("a day of processing that lies ahead or cannot be read counts as fresh, the careful side", () => {
  for (const processedOn of ["2099-01-01", "long ago"]) {
    expect(ids({ ...sound, processId: "integral-instant-colour", processedOn })).toContain("fresh-integral");
  }
});

test("the gravest caution comes first", () => {
  const levels = cautionsFor({
    ...sound,
    processId: "integral-instant-colour",
    findings: [
      { term: "curl", severity: 1 },
      { term: "reagent-leak", severity: 3 },
    ],
  }).map(({ level }) => level);
  expect(levels[0]).toBe("danger");
  expect([...levels].sort((a, b) => ORDER.indexOf(a) - ORDER.indexOf(b))).toEqual(levels);
});
const ORDER = ["danger", "warning", "caution", "notice"];

/**
 * Which methods a print in this state must not meet. The rows for cracked prints and for sheet-fed scanners follow the
 * University at Albany's capture guidance and Yale's handling rules; the others are this program's own proposals from the cautions.
 */
const FORBIDDEN: readonly [state: string, circumstances: Circumstances, methods: readonly string[]][] = [
  ["sound laboratory print", sound, []],
  [
    "fresh integral print",
    { ...sound, processId: "integral-instant-colour", processedOn: "2026-11-20" },
    ["sheet-fed-scanner", "flatbed-scanner"],
  ],
  ["old sound integral print", { ...sound, processId: "integral-instant-colour" }, ["sheet-fed-scanner"]],
  ["cracked print", found("crack"), ["sheet-fed-scanner", "flatbed-scanner"]],
  ["curled print", found("curl"), ["sheet-fed-scanner", "flatbed-scanner"]],
  ["mouldy print", found("mould"), ["sheet-fed-scanner", "flatbed-scanner"]],
  ["torn print", found("tear"), ["sheet-fed-scanner"]],
  ["card mount", { ...sound, formatId: "cabinet-card" }, ["sheet-fed-scanner"]],
  ["cased plate", { ...sound, processId: "ambrotype" }, ["sheet-fed-scanner", "flatbed-scanner"]],
  ["process not known", { ...sound, processId: "not-known" }, ["sheet-fed-scanner"]],
];

test.each(FORBIDDEN)("methods kept from a %s", (_state, circumstances, methods) => {
  expect(METHODS.filter((method) => contraIndication(method, circumstances) !== null).sort()).toEqual([...methods].sort());
});

test("every caution says what to do, why, from which source, and who takes precedence", () => {
  for (const rule of CAUTION_TABLE) {
    expect(rule.text.length, rule.id).toBeGreaterThan(20);
    expect(rule.cause.length, rule.id).toBeGreaterThan(5);
    expect(rule.source.length, rule.id).toBeGreaterThan(5);
    expect(rule.defer, rule.id).toMatch(/take precedence/);
  }
});
