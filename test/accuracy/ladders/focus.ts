import type { Picture } from "#domain/measure/picture.ts";
import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { moved } from "../../fixtures/defects/moved.ts";
import { type SheetPlace, softPlaces } from "../../fixtures/defects/soft-places.ts";
import type { Defect } from "../../fixtures/pictures.ts";
import { contextOf } from "../../fixtures/pictures.ts";
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

/** The print bulges under the lens: soft in its middle, sharp at all its edges. */
export const hillLadder: Ladder = {
  defect: "print that bulges in its middle",
  reads: [
    { measure: "focusFalloffPercent", truth: () => 0 },
    { measure: "motionMm", truth: () => 0 },
  ],
  levels: [0, 0.08, 0.15],
  levelUnit: "mm of blur in the middle",
  draw: (level, seed) =>
    drawn(
      seed,
      softPlaces(SMALL, ({ across, down }) => level * Math.max(0, 1 - 2.2 * Math.hypot(across - 0.5, down - 0.5))),
    ),
};

/** Nothing of the sheet's or the picture's edges is left: what the picture shows is all there is. */
export const tiltCroppedLadder: Ladder = {
  defect: "tilted camera, soft at the right, file cropped to within the picture",
  reads: [{ measure: "focusFalloffPercent", truth: (level) => level }],
  levels: [0, 20, 40, 70],
  levelUnit: "% fall-off",
  draw: (level, seed) => {
    const added = BASE_MM * Math.sqrt(1 / (1 - level / 100) ** 2 - 1);
    const { leftMm, widthMm, topMm, heightMm } = CROPPED;
    const soft = softPlaces(SMALL, ({ across }) => added * Math.max(0, (across * SMALL.widthMm - leftMm) / widthMm));
    const print = { ...SMALL, content: CONTENTS[seed % CONTENTS.length] ?? "scene" };
    const { picture, truth } = captureSheet({ seed, ppi: PPI, turnDeg: 0, defects: [soft], print });
    const pxPerMm = PPI / 25.4;
    const [left, top] = [leftMm, topMm].map((mm, axis) =>
      Math.round((axis ? truth.sheet.topLeft.y : truth.sheet.topLeft.x) + mm * pxPerMm),
    );
    const [width, height] = [widthMm, heightMm].map((mm) => Math.round(mm * pxPerMm));
    return {
      picture: part(picture, left as number, top as number, width as number, height as number),
      context: contextOf({ sheetWidthMm: widthMm, sheetHeightMm: heightMm }),
    };
  },
};

/** Of the small print: half a millimetre within its picture. */
const CROPPED = { leftMm: 5.5, topMm: 5.5, widthMm: 33, heightMm: 37 };

function part(picture: Picture, left: number, top: number, widthPx: number, heightPx: number): Picture {
  const codes = picture.codes.slice(0, 3 * widthPx * heightPx);
  for (let y = 0; y < heightPx; y++) {
    const from = 3 * ((top + y) * picture.widthPx + left);
    codes.set(picture.codes.subarray(from, from + 3 * widthPx), 3 * y * widthPx);
  }
  return { ...picture, widthPx, heightPx, codes };
}
