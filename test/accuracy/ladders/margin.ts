import { SMALL } from "../../fixtures/captured-sheet.ts";
import { contextFor, drawPicture, poseOf } from "../../fixtures/pictures.ts";
import type { Ladder } from "../ladder.ts";

const GROUNDS = ["dark-cloth", "wood-grain", "grey-card"] as const;
const PPI = 200;
const MM = PPI / 25.4;

export const marginLadder: Ladder = {
  defect: "print too near to the frame, at last cut off by it (below 0)",
  reads: [
    { measure: "marginMm", truth: (level) => Math.max(0, level) },
    { measure: "sidesSeen", truth: (level) => (level < 0 ? 1 : 4) },
  ],
  levels: [8, 4, 2, 1, -3],
  levelUnit: "mm of ground at the foot",
  draw: (level, seed) => {
    const widthPx = Math.round((SMALL.widthMm + 20) * MM);
    const heightPx = Math.round((SMALL.heightMm + 10 + level) * MM);
    const centre = { x: widthPx / 2 - 0.5, y: heightPx - 0.5 - (level + SMALL.heightMm / 2) * MM };
    const print = { ...SMALL, pose: poseOf({ ...SMALL, ppi: PPI, centre, turnDeg: 0 }) };
    const { picture } = drawPicture({
      widthPx,
      heightPx,
      prints: [print],
      bedPxPerMm: MM,
      seed,
      noise: 0.8,
      background: GROUNDS[seed % GROUNDS.length] ?? "dark-cloth",
    });
    return { picture, context: contextFor(SMALL) };
  },
};
