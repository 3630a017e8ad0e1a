import { describe, expect, test } from "vitest";
import { METHODS, type Method } from "#domain/capture/method.ts";
import { GENERAL_CAUTIONS } from "#domain/condition/cautions/general.ts";
import { type Circumstances, cautionsFor, contraIndication } from "#domain/condition/cautions-for.ts";

/** Never; only after the caution is read; usual care. */
type Verdict = "no" | "confirm" | "ok";

/** What the sources say of a state, for the ways that the program tells apart. Under a flatbed: with the lid closed, and with it open. */
type State = {
  readonly state: string;
  readonly source: string;
  readonly prints: readonly Circumstances[];
  readonly sheetFed: Verdict;
  readonly lidClosed: Verdict;
  readonly lidOpen: Verdict;
  readonly fromAbove: Verdict;
  readonly phone: Verdict;
};

const sound: Circumstances = { processId: "chromogenic", formatId: "sheet-4r", processedOn: "1985", today: "2026-11-26", findings: [] };
const withFindings = (...terms: string[]) => terms.map((term) => ({ ...sound, findings: [{ term, severity: 1 }] }));
const ofProcess = (...ids: string[]) => ids.map((processId) => ({ ...sound, processId, formatId: null }));

const ALBANY =
  "University at Albany Libraries, Guidelines for Digital Capture; Yale University Library, Care and Handling of Physical Collections";
const OWN = "the program's own proposal, from the cautions and their sources";

const STATES: readonly State[] = [
  {
    state: "a sound modern laboratory print",
    source: OWN,
    prints: [sound],
    sheetFed: "confirm",
    lidClosed: "ok",
    lidOpen: "ok",
    fromAbove: "ok",
    phone: "ok",
  },
  {
    state: "a unique original",
    source: ALBANY,
    prints: ofProcess(
      "peel-apart-instant-colour",
      "peel-apart-instant-monochrome",
      "direct-thermal",
      "albumen",
      "salted-paper",
      "cyanotype",
      "tintype",
    ),
    sheetFed: "no",
    lidClosed: "ok",
    lidOpen: "ok",
    fromAbove: "ok",
    phone: "ok",
  },
  {
    state: "an integral instant print under 30 days",
    source: "a maker's storage article for integral instant film; D. Nishimura, Conservation DistList, 1993",
    prints: [
      { ...sound, processId: "integral-instant-colour", processedOn: "2026-11-01" },
      { ...sound, processId: "integral-instant-monochrome", processedOn: "2026-11-25" },
    ],
    sheetFed: "no",
    lidClosed: "no",
    lidOpen: "no",
    fromAbove: "ok",
    phone: "ok",
  },
  {
    state: "a sound integral instant print over 30 days",
    source: OWN,
    prints: ofProcess("integral-instant-colour", "integral-instant-monochrome"),
    sheetFed: "no",
    lidClosed: "confirm",
    lidOpen: "ok",
    fromAbove: "ok",
    phone: "ok",
  },
  {
    state: "leaking reagent",
    source: OWN,
    prints: withFindings("reagent-leak"),
    sheetFed: "no",
    lidClosed: "no",
    lidOpen: "no",
    fromAbove: "confirm",
    phone: "ok",
  },
  {
    state: "cracked, lifting, flaking or blistered",
    source: ALBANY,
    prints: withFindings("crack", "cracking-integral", "flaking", "blister", "frilling"),
    sheetFed: "no",
    lidClosed: "no",
    lidOpen: "no",
    fromAbove: "ok",
    phone: "ok",
  },
  {
    state: "delaminating",
    source: OWN,
    prints: withFindings("delam-instant"),
    sheetFed: "no",
    lidClosed: "no",
    lidOpen: "no",
    fromAbove: "ok",
    phone: "ok",
  },
  {
    state: "curled, cockled or creased",
    source: OWN,
    prints: withFindings("curl", "cockling", "crease"),
    sheetFed: "no",
    lidClosed: "no",
    lidOpen: "confirm",
    fromAbove: "ok",
    phone: "ok",
  },
  {
    state: "sticky, damp, ferrotyped or with bleeding dyes",
    source: "Iowa State University Library; B. Lemmen, Conservation DistList, 1995",
    prints: withFindings("binder-soft", "ferrotyping", "dye-bleed"),
    sheetFed: "no",
    lidClosed: "no",
    lidOpen: "no",
    fromAbove: "ok",
    phone: "ok",
  },
  {
    state: "stuck to glass",
    source: OWN,
    prints: withFindings("frame-stuck", "blocking"),
    sheetFed: "no",
    lidClosed: "no",
    lidOpen: "confirm",
    fromAbove: "ok",
    phone: "ok",
  },
  {
    state: "mould or insects",
    source: OWN,
    prints: withFindings("mould", "insect"),
    sheetFed: "no",
    lidClosed: "no",
    lidOpen: "no",
    fromAbove: "confirm",
    phone: "confirm",
  },
  {
    state: "brittle, or torn into the image",
    source: OWN,
    prints: withFindings("brittle", "tear"),
    sheetFed: "no",
    lidClosed: "confirm",
    lidOpen: "confirm",
    fromAbove: "ok",
    phone: "ok",
  },
  {
    state: "a cased object or glass plate",
    source: "University of Illinois Library, preservation guidance",
    prints: [...ofProcess("daguerreotype", "ambrotype"), ...withFindings("broken-support", "glass-corrosion", "tarnish")],
    sheetFed: "no",
    lidClosed: "no",
    lidOpen: "no",
    fromAbove: "ok",
    phone: "ok",
  },
  {
    state: "nitrate film",
    source: OWN,
    prints: withFindings("nitrate-decay"),
    sheetFed: "no",
    lidClosed: "no",
    lidOpen: "no",
    fromAbove: "confirm",
    phone: "confirm",
  },
  {
    state: "a curved or thick mount",
    source: ALBANY,
    prints: [{ ...sound, formatId: "cabinet-card" }],
    sheetFed: "no",
    lidClosed: "no",
    lidOpen: "confirm",
    fromAbove: "ok",
    phone: "ok",
  },
  {
    state: "unfixed, stabilised, hand-coloured or direct thermal",
    source: OWN,
    prints: [...withFindings("print-out", "hand-colour"), ...ofProcess("direct-thermal")],
    sheetFed: "no",
    lidClosed: "confirm",
    lidOpen: "confirm",
    fromAbove: "confirm",
    phone: "confirm",
  },
];

/** The lid of a flatbed may close by itself, so these are stopped as with the lid closed; a person may overrule it with a reason. */
const HELD_AS_WITH_THE_LID_CLOSED = ["curled, cockled or creased", "stuck to glass"];

/** What is said of every print, or of a method whatever the print. */
const isGeneral = ({ id }: { id: string }) => GENERAL_CAUTIONS.some((rule) => rule.id === id && rule.id !== "no-rollers-for-originals");

function verdicts(state: State): [Method, Verdict][] {
  const flatbed = HELD_AS_WITH_THE_LID_CLOSED.includes(state.state) ? state.lidClosed : state.lidOpen;
  return [
    ["sheet-fed-scanner", state.sheetFed],
    ["flatbed-scanner", flatbed],
    ["copy-stand-camera", state.fromAbove],
    ["phone-camera", state.phone],
  ];
}

describe.each(STATES.map((state) => [state.state, state] as const))("%s", (_name, state) => {
  test.each(verdicts(state))(`by ${state.source}: %s is %s`, (method, verdict) => {
    for (const print of state.prints) {
      const stop = contraIndication(method, print);
      const words = JSON.stringify(print);
      if (verdict === "no") expect(stop, words).not.toBe(null);
      else expect(stop, words).toBe(null);
      if (verdict === "confirm")
        expect(
          cautionsFor({ ...print, method }).filter((each) => !isGeneral(each)),
          words,
        ).not.toEqual([]);
    }
  });
});

test("the lid that presses is spoken of where only a closed lid is forbidden", () => {
  const mounted = cautionsFor({ ...sound, formatId: "cabinet-card", method: "flatbed-scanner" });
  expect(mounted.map(({ text }) => text).join(" ")).toMatch(/under a lid/);
});

test("all four methods are judged", () => {
  for (const state of STATES)
    expect(
      verdicts(state)
        .map(([method]) => method)
        .sort(),
    ).toEqual([...METHODS].sort());
});
