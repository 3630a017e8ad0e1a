import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { moved } from "../../fixtures/defects/moved.ts";
import { type SheetPlace, softPlaces } from "../../fixtures/defects/soft-places.ts";
import type { Defect } from "../../fixtures/pictures.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;
const PPI = 200;
/** Blur that every capture is drawn with: 0.6 px. */
const BASE_MM = (0.6 * 25.4) / PPI;

const drawn = (seed: number, defect: Defect) =>
  captureSheet({ seed, ppi: PPI, defects: [defect], print: { ...SMALL, content: CONTENTS[seed % CONTENTS.length] ?? "scene" } });

/** Blur grows evenly from one side to the other; `degrees` is where the gradient of `share` points, in mm of the sheet. */
const tilt = (words: string, degrees: number, share: (place: SheetPlace) => number): Ladder => ({
  defect: `tilted camera, soft ${words}`,
  reads: [
    { measure: "focusFalloffPercent", truth: (level) => level },
    { measure: "focusFalloffDegrees", truth: (level) => (level === 0 ? Number.NaN : degrees) },
    { measure: "motionMm", truth: () => 0 },
  ],
  levels: [0, 10, 20, 40, 70],
  levelUnit: "% fall-off",
  draw: (level, seed) => {
    const added = BASE_MM * Math.sqrt(1 / (1 - level / 100) ** 2 - 1);
    return drawn(
      seed,
      softPlaces(SMALL, (place) => added * Math.max(0, share(place))),
    );
  },
});

export const tiltDownLadder = tilt("at the bottom", 90, ({ down }) => down);
export const tiltLeftLadder = tilt("at the left", 180, ({ across }) => 1 - across);

/** Curl: blur grows with the square of the distance from the middle. */
export const bowlLadder: Ladder = {
  defect: "curled print, soft corners",
  reads: [
    { measure: "focusFalloffPercent", truth: () => 0 },
    { measure: "motionMm", truth: () => 0 },
  ],
  levels: [0, 0.05, 0.1, 0.2],
  levelUnit: "mm of blur in the corners",
  draw: (level, seed) =>
    drawn(
      seed,
      softPlaces(SMALL, ({ across, down }) => 2 * level * ((across - 0.5) ** 2 + (down - 0.5) ** 2)),
    ),
};

const movement = (words: string, degrees: number): Ladder => ({
  defect: `movement ${words}`,
  reads: [
    { measure: "motionMm", truth: (level) => level },
    { measure: "focusFalloffPercent", truth: () => 0 },
  ],
  levels: [0, 0.15, 0.25, 0.5],
  levelUnit: "mm",
  draw: (level, seed) => drawn(seed, moved(level, degrees)),
});

export const movementAcrossLadder = movement("across the frame", 0);
export const movementDownLadder = movement("down the frame", 90);
/** Not seen from upright edges, but by detail of the picture. */
export const movementDiagonalLadder = movement("along a diagonal", 45);

/** One length, all directions: the level is the direction. */
export const movementDirectionLadder: Ladder = {
  defect: "movement of 0.3 mm by direction",
  reads: [
    { measure: "motionMm", truth: () => 0.3 },
    { measure: "focusFalloffPercent", truth: () => 0 },
  ],
  levels: [0, 30, 45, 60, 90],
  levelUnit: "°",
  draw: (level, seed) => drawn(seed, moved(0.3, level)),
};
