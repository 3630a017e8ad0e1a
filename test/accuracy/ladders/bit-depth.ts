import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { edited } from "../../fixtures/edits.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;
const MOST = 65535;

/** Codes of a file of 16 bits that hold no more than fewer bits do. */
export const bitDepthLadder: Ladder = {
  defect: "few bits stored as 16",
  reads: [{ measure: "effectiveBitDepth", truth: (level) => level }],
  levels: [16, 14, 12, 10, 8],
  levelUnit: "bits in fact",
  draw: (level, seed) => {
    const drawn = captureSheet({
      seed,
      bits: 16,
      known: { bitsPerChannel: 16, fileKind: "tiff" },
      print: { ...SMALL, content: CONTENTS[seed % CONTENTS.length] ?? "scene" },
    });
    const step = MOST / (2 ** level - 1);
    return { ...drawn, picture: edited(drawn.picture, (code) => step * Math.round(code / step)) };
  },
};
