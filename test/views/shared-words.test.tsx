import { expect, test } from "vitest";
import type { Reading } from "#domain/measure/reading.ts";
import { CaptureMeasures } from "#views/parts/capture-measures.tsx";
import { sharedWords } from "#views/parts/shared-words.ts";

const SHARPENED = "Raised by sharpening: edges are steeper than the capture was.";
const ACROSS = "Read across the frame only.";
const NO_EDGE = "no edge of the print can be used: not seen as an edge. Give it a dark ground";

const READINGS: readonly Reading[] = [
  { name: "sfr50CyPerMm", value: 3, reliability: "weak", note: SHARPENED },
  { name: "sfr10CyPerMm", value: 5, reliability: "weak", note: SHARPENED },
  { name: "samplingEfficiencyPercent", value: 80, reliability: "weak", note: ACROSS },
  { name: "focusFalloffPercent", absent: NO_EDGE },
  { name: "motionMm", absent: NO_EDGE },
];

test("notes and reasons of absence are shared whole, and a reason is never one with a note", () => {
  expect(sharedWords(READINGS).map(({ isReason, words, of }) => [isReason, words, of.map(({ name }) => name)])).toEqual([
    [false, SHARPENED, ["sfr50CyPerMm", "sfr10CyPerMm"]],
    [true, NO_EDGE, ["focusFalloffPercent", "motionMm"]],
  ]);
  expect(
    sharedWords([
      { name: "skewDegrees", value: 1, reliability: "weak", note: "Short." },
      { name: "keystoneMm", absent: "Short." },
    ]),
  ).toEqual([]);
});

test("a sentence that several notes have in common stays with what it leans on", () => {
  const leaning = "It may hide glare.";
  const readings: readonly Reading[] = [
    { name: "borderCastA", value: 1, reliability: "weak", note: `The paper may have aged. ${leaning}` },
    { name: "evennessPercent", value: 5, reliability: "weak", note: `A shadow lies on it. ${leaning}` },
  ];
  expect(sharedWords(readings)).toEqual([]);
  const html = String(<CaptureMeasures readings={readings} />);
  for (const { note } of readings as readonly { note: string }[]) expect(html).toContain(note);
});

test("on a capture's page what several figures of a group say alike stands once, with their names, and what one says alone beside it", () => {
  const html = String(<CaptureMeasures readings={READINGS} />);
  for (const once of [SHARPENED, ACROSS, NO_EDGE]) expect(html.split(once), once).toHaveLength(2);
  expect(html).toMatch(new RegExp(`<strong>SFR 50 %, SFR 10 %</strong>: ${SHARPENED}`));
  expect(html.match(/Not read, for the reason that stands above/g)).toHaveLength(2);
  expect(html.indexOf(ACROSS)).toBeGreaterThan(html.indexOf("<dl"));
});
