import { lightnessOf } from "#domain/measure/colour/lab.ts";
import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { bandingOf, streaksOf } from "../../fixtures/defects/streaks.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;
const contentOf = (seed: number) => CONTENTS[seed % CONTENTS.length] ?? "scene";
const PAPER_Y = 0.8;
/** Lightness that the paper of the drawn prints gains or loses by a share of its light. */
export const onPaper = (share: number) => Math.abs(lightnessOf(PAPER_Y * (1 + share)) - lightnessOf(PAPER_Y));
const PAPER = [PAPER_Y, PAPER_Y, PAPER_Y] as const;

/** Three streaks, of 1.6 px, 3 px and 1.5 mm, one of them across the others; the first is the strongest. */
export const streaksLadder: Ladder = {
  defect: "streaks of the sensor strip",
  reads: [
    { measure: "streakCount", truth: (level) => (level === 0 ? 0 : 3) },
    { measure: "streakDeltaL", truth: (level) => onPaper(-level / 100) },
  ],
  levels: [0, 0.5, 1, 2, 5, 10],
  levelUnit: "% of the light",
  draw: (level, seed) =>
    captureSheet({
      turnDeg: 0.8 + (seed % 7) / 5,
      seed,
      print: { ...SMALL, paper: PAPER, content: contentOf(seed) },
      defects: [
        streaksOf([
          { along: "columns", atPx: 170.3 + (seed % 11), widthPx: 3, gain: -level / 100 },
          { along: "columns", atPx: 300, widthPx: 1.6, gain: (0.8 * level) / 100 },
          { along: "rows", atPx: 250.5 - (seed % 13), widthPx: 12, gain: (-0.7 * level) / 100 },
        ]),
      ],
    }),
};

export const bandingLadder: Ladder = {
  defect: "banding of the transport",
  reads: [{ measure: "bandingDeltaL", truth: (level) => (onPaper(level / 100) + onPaper(-level / 100)) / 2 }],
  levels: [0, 0.5, 1, 2, 4],
  levelUnit: "% of the light",
  draw: (level, seed) =>
    captureSheet({
      turnDeg: -1.2,
      seed,
      print: { ...SMALL, paper: PAPER, content: contentOf(seed) },
      defects: [bandingOf("rows", 18.5 + (seed % 5), level / 100)],
    }),
};
