import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { edited } from "../../fixtures/edits.ts";
import { WIDENINGS, type Widening } from "../../fixtures/widenings.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;
const MOST = 65535;
const WAYS = Object.values(WIDENINGS);

function inFewBits(level: number, seed: number, widen: Widening, curve: (share: number) => number = (share) => share) {
  const drawn = captureSheet({
    seed,
    bits: 16,
    known: { bitsPerChannel: 16, fileKind: "tiff" },
    print: { ...SMALL, content: CONTENTS[seed % CONTENTS.length] ?? "scene" },
  });
  const most = 2 ** level - 1;
  return { ...drawn, picture: edited(drawn.picture, (code) => MOST * curve(widen(Math.round((code * most) / MOST), level) / MOST)) };
}

/** Codes of a file of 16 bits that hold no more than fewer bits do, widened in another way for each seed. */
export const bitDepthLadder: Ladder = {
  defect: "few bits stored as 16",
  reads: [{ measure: "effectiveBitDepth", truth: (level) => level }],
  levels: [16, 15, 14, 13, 12, 11, 10, 9, 8],
  levelUnit: "bits in fact",
  draw: (level, seed) => inFewBits(level, seed, WAYS[seed % WAYS.length] as Widening),
};

/** The same under a tone curve in 16 bits: no grid is left. */
export const bitDepthUnderCurveLadder: Ladder = {
  defect: "few bits stored as 16, then darkened by a curve in 16",
  reads: [{ measure: "effectiveBitDepth", truth: (level) => level }],
  levels: [16, 14, 12, 10, 8],
  levelUnit: "bits in fact",
  draw: (level, seed) => inFewBits(level, seed, WAYS[seed % WAYS.length] as Widening, (share) => share ** 1.3),
};
