import { describe, expect, test } from "vitest";
import { METHODS } from "#domain/capture/method.ts";
import { CAUTION_TABLE } from "#domain/condition/caution-table.ts";
import { answersFor, type Circumstances, cautionsFor, contraIndication } from "#domain/condition/cautions-for.ts";
import { INTENDED_ACTIONS, type IntendedAction } from "#domain/condition/intended-action.ts";

const sound: Circumstances = {
  processId: "chromogenic",
  formatId: "sheet-4r",
  processedOn: "1985-06-01",
  today: "2026-11-25",
  findings: [],
};
const found = (term: string, severity = 2) => ({ ...sound, findings: [{ term, severity }] });
const judged = (term: string, activity: "active" | "stable" | "not-known") => ({
  ...sound,
  findings: [{ term, severity: 2, activity }],
});
const ids = (circumstances: Circumstances) => cautionsFor(circumstances).map(({ id }) => id);

/** Each caution by a case in which it must be said and the nearest case in which it must not. */
const CASES: Readonly<Record<string, { said: Circumstances; silent: Circumstances }>> = {
  "leaking-reagent": {
    said: { ...found("reagent-leak"), processId: "integral-instant-colour" },
    silent: { ...found("reagent-leak", 0), processId: "integral-instant-colour" },
  },
  "picture-still-forming": {
    said: { ...sound, processId: "integral-instant-colour", processedOn: "2026-11-25" },
    silent: { ...sound, processId: "integral-instant-colour", processedOn: null },
  },
  wet: { said: judged("tideline", "active"), silent: judged("tideline", "stable") },
  "perhaps-wet": { said: judged("tideline", "not-known"), silent: judged("tideline", "active") },
  "poisonous-hand-colouring": { said: found("hand-colour"), silent: found("retouch") },
  "poisonous-case": { said: { ...sound, processId: "ambrotype" }, silent: { ...sound, processId: "albumen" } },
  "poisonous-mount": { said: { ...sound, formatId: "cabinet-card" }, silent: sound },
  "pvc-enclosure": { said: { ...sound, enclosureMaterial: "pvc" }, silent: { ...sound, enclosureMaterial: "polypropylene" } },
  "unknown-plastic-enclosure": {
    said: { ...sound, enclosureMaterial: "plastic-unknown" },
    silent: { ...sound, enclosureMaterial: "paper-unknown" },
  },
  "corroded-cover-glass": { said: found("glass-corrosion"), silent: found("dirt") },
  "cracks-when-bent": { said: found("crazing"), silent: found("foxing") },
  "light-sensitive-parts": { said: found("hand-colour"), silent: found("retouch") },
  "tintype-lacquer": { said: { ...sound, processId: "tintype" }, silent: { ...sound, processId: "daguerreotype" } },
  "do-not-freeze": {
    said: { ...sound, processId: "integral-instant-colour" },
    silent: { ...sound, processId: "peel-apart-instant-colour" },
  },
  "steady-climate": { said: { ...sound, processId: "peel-apart-instant-monochrome" }, silent: sound },
  "show-a-copy": {
    said: { ...sound, processId: "integral-instant-colour" },
    silent: { ...sound, processId: "integral-instant-monochrome" },
  },
  "keep-from-heat": { said: { ...sound, processId: "gelatin-silver-fibre" }, silent: { ...sound, processId: "cyanotype" } },
  "direct-thermal-heat": { said: { ...sound, processId: "direct-thermal" }, silent: { ...sound, processId: "dye-sublimation" } },
  "nitrate-decay": { said: found("nitrate-decay"), silent: found("vinegar") },
  "cased-do-not-open": { said: { ...sound, processId: "daguerreotype" }, silent: { ...sound, processId: "tintype" } },
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
  "single-original": {
    said: { ...sound, processId: "direct-thermal", method: "sheet-fed-scanner" },
    silent: { ...sound, processId: "direct-thermal", method: "flatbed-scanner" },
  },
  "no-heat-instant": { said: { ...sound, processId: "integral-instant-monochrome" }, silent: { ...sound, processId: "inkjet" } },
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

const meant = (action: IntendedAction, processId = sound.processId): Circumstances => ({ ...sound, processId, action });

Object.assign(CASES, {
  "glass-laid-lightly": { said: meant("glass-over-it"), silent: meant("post") },
  "cool-light": { said: meant("hot-lamps"), silent: meant("display") },
  "packed-rigid": { said: meant("post"), silent: sound },
  "light-adds-up": { said: meant("display"), silent: meant("freeze") },
  "frozen-in-its-bag": { said: meant("freeze"), silent: meant("glass-over-it") },
  "not-below-five-degrees": { said: meant("freeze", "albumen"), silent: meant("freeze", "salted-paper") },
  "above-freezing": { said: meant("freeze", "inkjet"), silent: meant("freeze", "chromogenic") },
  "direct-thermal-not-shown": { said: meant("display", "direct-thermal"), silent: meant("display", "dye-sublimation") },
  "stand-lamps-and-glass": { said: { ...sound, method: "copy-stand-camera" }, silent: { ...sound, method: "phone-camera" } },
  "scanner-glass-and-lamp": { said: { ...sound, method: "flatbed-scanner" }, silent: { ...sound, method: "sheet-fed-scanner" } },
} satisfies typeof CASES);

describe("every caution is said in its case and silent in the case beside it", () => {
  test.each(Object.entries(CASES))("%s", (id, { said, silent }) => {
    expect(ids(said)).toContain(id);
    expect(ids(silent)).not.toContain(id);
  });

  test("the cases cover the whole table but the cautions that hold for every print", () => {
    expect(CAUTION_TABLE.map(({ id }) => id).filter((id) => !(id in CASES))).toEqual(["hands", "first-steps-only"]);
    expect(ids(sound)).toEqual(["keep-from-heat", "hands", "first-steps-only"]);
    expect(ids({ ...sound, processId: "not-known" })).toEqual(["unknown-process", "hands", "first-steps-only"]);
  });

  test("no two cautions share an id", () => {
    expect(new Set(CAUTION_TABLE.map(({ id }) => id)).size).toBe(CAUTION_TABLE.length);
  });
});

test("an integral print whose day of processing nobody recorded is treated as fresh, and told so", () => {
  const fresh = cautionsFor({ ...sound, processId: "integral-instant-colour", processedOn: null }).find(
    ({ id }) => id === "fresh-integral",
  );
  expect(fresh?.cause).toMatch(/Nobody recorded .* treated as fresh/);
  expect(fresh?.toEnd).toMatchObject({ field: "processedOn", words: expect.stringContaining("1976~") });
});

describe("an instant print whose processing nobody recorded and whose picture is old", () => {
  const old = { ...sound, processId: "integral-instant-colour", processedOn: null, date: "1975" };
  const freshOf = (circumstances: Circumstances) => cautionsFor(circumstances).find(({ id }) => id.startsWith("fresh-"));

  test("is told “if it is fresh”, with the picture's date as the cause, below the certain warnings", () => {
    expect(freshOf(old)).toMatchObject({ level: "warning", isDoubtful: true, toEnd: { field: "processedOn" } });
    expect(freshOf(old)?.title).toBe("If it is fresh: still wet inside");
    expect(freshOf(old)?.text).toMatch(/^If it is fresh: for about 30 days/);
    expect(freshOf(old)?.cause).toMatch(/dated 1975.*until somebody does it is treated as fresh/);
    expect(freshOf({ ...old, processId: "peel-apart-instant-colour" })?.title).toBe("If it is fresh: alkaline residue");
    const warnings = cautionsFor(old).filter(({ level }) => level === "warning");
    expect(warnings.length).toBeGreaterThan(3);
    expect(warnings.at(-1)?.id).toBe("fresh-integral");
  });

  test("is treated as fresh all the same", () => {
    expect(contraIndication("flatbed-scanner", old)?.id).toBe("fresh-integral");
  });

  test.each(["1975?", "1976~/1978?", "197X%"])(
    "is told “if it is fresh” too when its date is uncertain by less than it is old: %s",
    (date) => {
      expect(freshOf({ ...old, date })).toMatchObject({ title: "If it is fresh: still wet inside", isDoubtful: true });
    },
  );

  test.each(["2019?", "2010%", "197X/2026", "2026-11-20", "1975/..", null])("is told so plainly when its date is %s", (date) => {
    expect(freshOf({ ...old, date })).toMatchObject({ title: expect.stringMatching(/^Fresh integral/), isDoubtful: false });
  });

  test("is told so plainly when its processing is recorded as recent or too wide", () => {
    for (const processedOn of ["2026-11-20", "202X"]) expect(freshOf({ ...old, processedOn })?.title).toMatch(/^Fresh integral/);
  });
});

/** Today is 25 November 2026, and 30 days before it is 26 October. */
const ROUGH: readonly [processedOn: string, isFresh: boolean][] = [
  ["1976~", false],
  ["197X", false],
  ["1976/1979", false],
  ["[..1980]", false],
  ["2025", false],
  ["2026-09", false],
  ["2026-10", true],
  ["2026", true],
  ["202X", true],
  ["1976/..", true],
  ["1976/", true],
  ["[1976..]", true],
  ["{1976,2026-11-20}", true],
  ["Y17000", true],
];

test.each(ROUGH)("processed %s: whether it is treated as fresh hangs on the youngest it can be", (processedOn, isFresh) => {
  const fresh = cautionsFor({ ...sound, processId: "integral-instant-colour", processedOn }).find(({ id }) => id === "fresh-integral");
  expect(fresh !== undefined).toBe(isFresh);
});

test("a date too wide to rule freshness out is named as the cause and can be narrowed; a day that is fresh ends by itself", () => {
  const freshOf = (processedOn: string) =>
    cautionsFor({ ...sound, processId: "integral-instant-colour", processedOn }).find(({ id }) => id === "fresh-integral");
  expect(freshOf("202X")?.cause).toMatch(/2020s/);
  expect(freshOf("202X")?.toEnd?.field).toBe("processedOn");
  expect(freshOf("2026-11-20")?.toEnd).toBeUndefined();
});

test("that the picture is still forming is said of a day alone, not of a month or a year", () => {
  for (const processedOn of ["2026-11", "2026", "1976/.."])
    expect(ids({ ...sound, processId: "integral-instant-colour", processedOn })).not.toContain("picture-still-forming");
});

test("no caution that does not end with time names a field that would end it", () => {
  const others = cautionsFor({ ...sound, processId: "integral-instant-colour", processedOn: null }).filter(
    ({ id }) => id !== "fresh-integral",
  );
  expect(others.length).toBeGreaterThan(3);
  expect(others.filter(({ toEnd }) => toEnd !== undefined)).toEqual([]);
});

test("an old day of processing ends the treatment as fresh, and the cause of a known day names the age", () => {
  const integral = { ...sound, processId: "integral-instant-colour" };
  expect(ids({ ...integral, processedOn: "1978-07-01" })).not.toContain("fresh-integral");
  const fresh = cautionsFor({ ...integral, processedOn: "2026-11-20" }).find(({ id }) => id === "fresh-integral");
  expect(fresh?.cause).toMatch(/30 days ago/);
});

test.each(["direct-thermal", "peel-apart-instant-colour"])(
  "of %s, that it cannot be printed again is said unless its negative or file is kept",
  (processId) => {
    const single = cautionsFor({ ...sound, processId, method: "sheet-fed-scanner" }).find(({ id }) => id === "single-original");
    expect(single?.text).toMatch(/^Unless its negative, or the file it was printed from, is kept/);
    expect(single?.text).not.toMatch(/^No negative/);
  },
);

test("a finding that the survey judged active is said to be", () => {
  const mould = (activity: "active" | "stable") =>
    cautionsFor({ ...sound, findings: [{ term: "mould", severity: 1, activity }] }).find(({ id }) => id === "mould")?.cause;
  expect(mould("active")).toMatch(/active/);
  expect(mould("stable")).not.toMatch(/active/);
});

test("several findings of one kind give one caution", () => {
  const twice = ids({
    ...sound,
    findings: [
      { term: "crack", severity: 1 },
      { term: "flaking", severity: 3 },
      { term: "crack", severity: 2 },
    ],
  });
  expect(twice.filter((id) => id === "lifting-image-layer")).toHaveLength(1);
});

test("a day of processing that lies ahead or cannot be read counts as fresh, the careful side", () => {
  for (const processedOn of ["2099-01-01", "long ago"]) {
    expect(ids({ ...sound, processId: "integral-instant-colour", processedOn })).toContain("fresh-integral");
  }
});

const ORDER = ["danger", "warning", "caution", "notice"];

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
  [
    "integral print of unknown day",
    { ...sound, processId: "integral-instant-colour", processedOn: null },
    ["sheet-fed-scanner", "flatbed-scanner"],
  ],
  ["leaking print of unknown process", { ...found("reagent-leak"), processId: "not-known" }, ["sheet-fed-scanner", "flatbed-scanner"]],
  ["sticky print", found("binder-soft"), ["sheet-fed-scanner", "flatbed-scanner"]],
  ["print stuck to glass", found("frame-stuck"), ["sheet-fed-scanner", "flatbed-scanner"]],
  ["hand-coloured print", found("hand-colour"), ["sheet-fed-scanner"]],
  ["tintype", { ...sound, processId: "tintype" }, ["sheet-fed-scanner"]],
  ["old peel-apart print", { ...sound, processId: "peel-apart-instant-colour" }, ["sheet-fed-scanner"]],
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

test("mould that is judged active is a danger, and a warning where it is not", () => {
  const level = (activity: "active" | "stable") =>
    cautionsFor({ ...sound, findings: [{ term: "mould", severity: 2, activity }] })[0]?.level;
  expect(level("active")).toBe("danger");
  expect(level("stable")).toBe("warning");
});

describe("what is answered to somebody who means to do something with a print", () => {
  const answer = (action: IntendedAction, circumstances: Circumstances) => answersFor(circumstances).find((each) => each.action === action);
  const noes = (circumstances: Circumstances) =>
    answersFor(circumstances).flatMap(({ action, verdict }) => (verdict === "must-not" ? [action] : []));

  test("speaks of every action, and always with a caution, so that silence is never leave", () => {
    for (const processId of ["inkjet", "not-known", "daguerreotype", "integral-instant-colour"]) {
      const answers = answersFor({ ...sound, processId });
      expect(answers.map(({ action }) => action)).toEqual([...INTENDED_ACTIONS]);
      expect(answers.filter(({ cautions }) => cautions.length === 0)).toEqual([]);
    }
  });

  test("forbids hot lamps for what lies in gelatin, and glass, post and display for a flaking print", () => {
    expect(noes({ ...sound, processId: "cyanotype" })).toEqual([]);
    expect(noes(sound)).toEqual(["hot-lamps"]);
    expect(noes({ ...found("flaking"), processId: "cyanotype" })).toEqual(["glass-over-it", "post", "display"]);
  });

  test("gives the cautions that forbid, gravest first, and else those that tell how", () => {
    const leaking = { ...found("reagent-leak"), processId: "integral-instant-colour" };
    expect(answer("post", leaking)?.cautions.map(({ id }) => id)).toEqual(["leaking-reagent"]);
    expect(answer("post", { ...sound, processId: "albumen" })?.cautions.map(({ id }) => id)).toEqual(["do-not-flex", "packed-rigid"]);
    expect(answer("display", { ...sound, processId: "integral-instant-colour" })?.cautions.map(({ id }) => id)).toEqual([
      "show-a-copy",
      "light-dose",
      "light-adds-up",
    ]);
  });
});
