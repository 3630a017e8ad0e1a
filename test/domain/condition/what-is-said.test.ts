import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { METHODS } from "#domain/capture/method.ts";
import type { Doing } from "#domain/condition/caution.ts";
import { type Circumstances, cautionsFor, contraIndication } from "#domain/condition/cautions-for.ts";
import { INTENDED_ACTIONS } from "#domain/condition/intended-action.ts";
import { TERMS } from "#domain/condition/terms.ts";
import { PROCESSES } from "#domain/print/process.ts";

const TODAY = "2026-11-26";

/** How the table calls a time since developing, and what the record then holds; 27 October is 30 days before the 26th of November. */
const DEVELOPED: Readonly<Record<string, string | null>> = {
  today: "2026-11-26",
  "7 days ago": "2026-11-19",
  "8 days ago": "2026-11-18",
  "30 days ago": "2026-10-27",
  "31 days ago": "2026-10-26",
  "in the 1970s": "197X",
  "not recorded": null,
};

/** The columns of the tables, in their order. */
const STOPPABLE: readonly Doing[] = ["sheet-fed-scanner", "flatbed-scanner", ...INTENDED_ACTIONS];

type Row = { said: readonly string[]; stopped: readonly Doing[] };

/** The rows under a heading, as cells. */
function rowsUnder(heading: string): string[][] {
  const text = readFileSync(new URL("what-is-said.md", import.meta.url), "utf8");
  const section = text.split(/^## /m).find((each) => each.startsWith(heading)) ?? "";
  return section
    .split("\n")
    .filter((line) => line.startsWith("| ") && !line.startsWith("| ---"))
    .slice(1)
    .map((line) =>
      line
        .slice(1, -1)
        .split("|")
        .map((cell) => cell.trim()),
    );
}

const listed = (cell = "") => cell.split("; ").filter((each) => each !== "");

const rowOf = (said = "", ...cells: string[]): Row => ({
  said: listed(said),
  stopped: STOPPABLE.filter((_, column) => cells[column] === "stopped"),
});

const byProcess = new Map<string, Row>();
for (const [names, developed, ...row] of rowsUnder("By process"))
  for (const name of listed(names))
    for (const when of developed === "at any time" ? Object.keys(DEVELOPED) : listed(developed))
      byProcess.set(`${name}, ${when}`, rowOf(...row));

const byTerm = new Map<string, Row>();
for (const [terms, ...row] of rowsUnder("By what was found")) for (const term of listed(terms)) byTerm.set(term, rowOf(...row));

const besides = new Map(rowsUnder("Besides").map(([of = "", ...row]) => [of, rowOf(...row)]));
const NOTHING: Row = { said: [], stopped: [] };
const beside = (of: string): Row => besides.get(of) ?? NOTHING;

const LEVELS = { danger: "Danger", warning: "Warning", caution: "Caution", notice: "Notice" };
const saidBy = (circumstances: Circumstances) => cautionsFor(circumstances).map(({ level, title }) => `${LEVELS[level]}: ${title}`);
const inOrder = (words: Iterable<string>) => [...new Set(words)].sort();

const SINGLE = new Set(["peel-apart-instant", "direct-thermal"]);
const COLD_PLATES = new Set(["daguerreotype", "ambrotype", "tintype", "albumen", "collodion-printing-out"]);
const COLD_PRINTS = new Set(["inkjet", "dye-sublimation"]);

/** The rows beside the two tables that speak of doing something with a print of a process. */
function besideRows(doing: Doing, processId: string, family: string): string[] {
  const any: Partial<Record<Doing, string>> = {
    "sheet-fed-scanner": "a sheet-fed scanner",
    "flatbed-scanner": "a flatbed scanner",
    "copy-stand-camera": "a camera on a copy stand",
    "glass-over-it": "glass over it",
    "hot-lamps": "hot lamps",
    post: "post",
    display: "display",
    freeze: "freezing",
  };
  return [
    "every print",
    ...(any[doing] ? [`${any[doing]}, with any print`] : []),
    ...(doing === "sheet-fed-scanner" && SINGLE.has(family)
      ? ["a sheet-fed scanner, with an instant print pulled apart or a direct thermal print"]
      : []),
    ...(doing === "freeze" && COLD_PLATES.has(processId)
      ? ["freezing, with a cased photograph, a tintype, an albumen or a collodion print"]
      : []),
    ...(doing === "freeze" && COLD_PRINTS.has(processId) ? ["freezing, with an inkjet or dye-sublimation print"] : []),
    ...(doing === "display" && family === "direct-thermal" ? ["display, with a direct thermal print"] : []),
  ];
}

const isMethod = (doing: Doing) => METHODS.some((each) => each === doing);

describe("the table of what is said", () => {
  test("has a row for every process at every time and for every term of the vocabulary, and no other", () => {
    expect(inOrder(byProcess.keys())).toEqual(
      inOrder(PROCESSES.flatMap(({ name }) => Object.keys(DEVELOPED).map((when) => `${name}, ${when}`))),
    );
    expect(inOrder(byTerm.keys())).toEqual(inOrder(TERMS.map(({ id }) => id)));
    expect(besides.size).toBe(17);
  });

  test.each(PROCESSES.map(({ id, name, family }) => [name, id, family] as const))(
    "%s: every age, finding, method and intended action is answered as it is written",
    (name, processId, family) => {
      const wrong: string[] = [];
      for (const [when, processedOn] of Object.entries(DEVELOPED))
        for (const term of [null, ...TERMS.map(({ id }) => id)])
          for (const doing of [...METHODS, ...INTENDED_ACTIONS]) {
            const findings = term === null ? [] : [{ term, severity: 2 }];
            const meant = isMethod(doing) ? { method: doing } : { action: doing };
            const circumstances = { processId, formatId: null, processedOn, today: TODAY, findings, ...meant } as Circumstances;
            const rows = [
              byProcess.get(`${name}, ${when}`) ?? NOTHING,
              term === null ? NOTHING : (byTerm.get(term) ?? NOTHING),
              ...besideRows(doing, processId, family).map(beside),
            ];
            const said = inOrder(saidBy(circumstances)).join("; ");
            const isStopped = contraIndication(doing, circumstances) !== null;
            const asWritten = {
              said: inOrder(rows.flatMap((row) => row.said)).join("; "),
              isStopped: rows.some((row) => row.stopped.includes(doing)),
            };
            if (said !== asWritten.said || isStopped !== asWritten.isStopped)
              wrong.push(`${when}, ${term}, ${doing}: ${isStopped ? "stopped" : "open"}, ${said}`);
          }
      expect(wrong).toEqual([]);
    },
  );

  test("a finding that is gone says nothing any more", () => {
    for (const { id: term } of TERMS) {
      const circumstances: Circumstances = { processId: "inkjet", processedOn: null, today: TODAY, findings: [{ term, severity: 0 }] };
      expect(inOrder(saidBy(circumstances)), term).toEqual(inOrder(beside("every print").said));
    }
  });

  test("what goes on in the wet is said to be wet, what stopped is not", () => {
    const row = beside("a tideline, blocking or mould that goes on");
    for (const term of ["tideline", "blocking", "mould"]) {
      const judged = (activity: "active" | "stable" | "not-known", processId = "inkjet"): Circumstances => ({
        processId,
        processedOn: null,
        today: TODAY,
        findings: [{ term, severity: 2, activity }],
      });
      expect(saidBy(judged("active")), term).toEqual(expect.arrayContaining([...row.said]));
      // dry, an inkjet print is kept from frost alone and a chromogenic one from hot lamps alone: the two tell which stops are of the wet
      for (const processId of ["inkjet", "chromogenic"])
        expect(
          STOPPABLE.filter((doing) => contraIndication(doing, judged("active", processId))),
          processId,
        ).toEqual(row.stopped);
      const damp = "Caution: If it is still damp: touch no face";
      expect(saidBy(judged("not-known"))).toContain(damp);
      expect(saidBy(judged("active"))).not.toContain(damp);
      for (const said of [damp, ...row.said]) expect(saidBy(judged("stable"))).not.toContain(said);
    }
  });

  test.each([
    ["pvc", "a place whose enclosures are of PVC"],
    ["plastic-unknown", "a place whose enclosures are of an unknown plastic"],
  ])("an enclosure of %s adds its own line, and one of polyester none", (enclosureMaterial, of) => {
    const kept: Circumstances = { processId: "inkjet", processedOn: null, today: TODAY, findings: [], enclosureMaterial };
    expect(inOrder(saidBy(kept))).toEqual(inOrder([...beside(of).said, ...beside("every print").said]));
    expect(STOPPABLE.filter((doing) => contraIndication(doing, kept))).toEqual([...beside(of).stopped, "freeze"]);
    expect(inOrder(saidBy({ ...kept, enclosureMaterial: "polyester" }))).toEqual(inOrder(beside("every print").said));
  });

  test("a card mount adds its own line", () => {
    const circumstances: Circumstances = { processId: "inkjet", formatId: "cabinet-card", processedOn: null, today: TODAY, findings: [] };
    const row = beside("a print on a card mount");
    expect(inOrder(saidBy(circumstances))).toEqual(inOrder([...row.said, ...beside("every print").said]));
    // an inkjet print is not frozen, mounted or not
    expect(STOPPABLE.filter((doing) => contraIndication(doing, circumstances))).toEqual([...row.stopped, "freeze"]);
  });
});
