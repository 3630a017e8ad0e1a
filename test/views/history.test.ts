import { expect, test } from "vitest";
import { eventInWords, type ShownEvent } from "#views/parts/history.tsx";

const event = (verb: string, subject: string, detail: Record<string, unknown>): ShownEvent => ({
  at: "2026-11-25T10:00:00.000Z",
  who: "Keeper",
  verb,
  subject,
  subjectId: 1,
  detail,
});

test.each([
  [event("created", "print", {}), "Print created."],
  [event("binned", "print", {}), "Print binned."],
  [event("taken in", "capture", { originalName: "scan.tif" }), "scan.tif taken in."],
  [
    event("edited", "print", { from: { title: "Weir", people: [] }, to: { title: "The weir", people: ["Ada", "John"] } }),
    "Record changed: Title from “Weir” to “The weir”; People shown from nothing to “Ada, John”.",
  ],
  [
    event("assigned", "capture", {
      from: { printId: null, side: "front", method: null },
      to: { printId: 3, side: "back", method: "phone-camera" },
    }),
    "A capture: it shows this print, it shows the back, its method is phone camera.",
  ],
  [
    event("assigned", "capture", { from: { printId: 3, side: "front", method: null }, to: { printId: 3, side: "front", method: null } }),
    "What is said of a capture was confirmed.",
  ],
  [
    event("chosen", "choice", { purpose: "preservation-master", side: "front", to: null, sentence: "None of 2 meets it." }),
    "No capture is good enough to be the master for preservation master. None of 2 meets it.",
  ],
  [
    event("released", "choice", { purpose: "own-anna", purposeName: "Anna in Vienna", side: "front", to: 4, sentence: "" }),
    "Master for Anna in Vienna given back to the rule. ",
  ],
  [
    event("released", "choice", { purpose: "screen", side: "back", to: 4, sentence: "a.jpg is the only capture." }),
    "Master for screen, back given back to the rule. a.jpg is the only capture.",
  ],
  [
    event("recorded", "survey", {
      surveyedOn: "2026-11-25",
      grade: "poor",
      gradeBasis: "said",
      proposed: "fair",
      findings: [
        { term: "stain", side: "front", severity: 3, change: "worse", from: 2 },
        { term: "curl", side: "front", severity: 1, change: "same", from: 1 },
        { term: "tape", side: "back", severity: 0, change: "gone", from: 2 },
        { term: "tear", side: "front", severity: 1, change: null, from: 1 },
        { term: "mould", side: "back", severity: 2, change: null, from: null },
        { term: "insect", side: "front", severity: 0, change: null, from: null },
      ],
    }),
    "Condition looked at on 25 November 2026: poor, where fair was proposed. Stain: worse, from moderate to marked. Curl: same, slight. Pressure-sensitive tape, back: gone. Tear: not looked at, still slight. New: Mould, back: moderate. Insect grazing: looked for, not found.",
  ],
])("%j is told in plain words", (happened, words) => {
  expect(eventInWords(happened)).toBe(words);
});

test("an event that this version does not know is still told, by its own verb", () => {
  expect(eventInWords(event("merged", "place", { with: { deep: [1] } }))).toBe("Place merged.");
  expect(eventInWords(event("assigned", "capture", {}))).toBe("What is said of a capture was confirmed.");
});

test("what a form keeps as an id is told by its name: process, enclosure, kind, method and place", () => {
  const places = new Map([
    [1, "Study › Box 4"],
    [2, "Study › Box 5"],
  ]);
  const print = { from: { processId: "not-known", placeId: 1 }, to: { processId: "cyanotype", placeId: 2 } };
  expect(eventInWords(event("edited", "print", print), places)).toBe(
    "Record changed: Process from “Not known” to “Cyanotype”; Place from “Study › Box 4” to “Study › Box 5”.",
  );
  const place = {
    from: { kind: "box", enclosureMaterial: null, parentId: null },
    to: { kind: "album", enclosureMaterial: "pvc", parentId: 1 },
  };
  expect(eventInWords(event("edited", "place", place), places)).toBe(
    "Record changed: Kind from “Box” to “Album”; Material of the enclosure from nothing to “PVC (vinyl)”; Inside from nothing to “Study › Box 4”.",
  );
  const setUp = { from: { method: "phone-camera" }, to: { method: "flatbed-scanner" } };
  expect(eventInWords(event("edited", "set-up", setUp))).toBe("Record changed: Method from “Phone camera” to “Flatbed scanner”.");
  expect(eventInWords(event("edited", "print", { from: { placeId: 1 }, to: { placeId: 9 } }), places)).toContain("to “9”");
});
