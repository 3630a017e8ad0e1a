import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { jpegHeaderOf, savedAsJpeg } from "../../fixtures/jpeg-saves.ts";
import type { Ladder } from "../ladder.ts";

const LAST_QUALITY = 92;

export const doubleSaveLadder: Ladder = {
  defect: "saved as JPEG before, ever more coarsely",
  reads: [{ measure: "doubleSaveSigma", truth: () => Number.NaN }],
  levels: [0, 12, 17, 22, 32],
  levelUnit: "below 100 of the first save, the last at 92; 0 for none",
  draw: (level, seed) => {
    const drawn = captureSheet({
      seed,
      ppi: 260,
      noise: 0.8,
      print: { ...SMALL, content: "scene" },
      known: { fileKind: "jpeg", jpegHeader: jpegHeaderOf(LAST_QUALITY) },
    });
    const before = level === 0 ? drawn.picture : savedAsJpeg(drawn.picture, 100 - level);
    return { ...drawn, picture: savedAsJpeg(before, LAST_QUALITY) };
  },
};
