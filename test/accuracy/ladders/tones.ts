import { project } from "#domain/measure/homography.ts";
import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { lightOfLightness } from "../../fixtures/light-of-lightness.ts";
import type { Defect } from "../../fixtures/pictures.ts";
import type { Ladder } from "../ladder.ts";

const MIDDLE_LIGHTNESS = 50;

/** The whole picture a slope of greys, even in lightness, down it or across it: every tone as often. */
export const slope =
  (range: number, isDown: boolean): Defect =>
  ({ widthPx, rgb, prints }) => {
    const toMm = prints[0]?.toMm;
    if (!toMm) return;
    const { widthMm, heightMm, border } = SMALL;
    for (let at = 0; at < rgb.length; at += 3) {
      const mm = project(toMm, (at / 3) % widthPx, Math.floor(at / 3 / widthPx));
      const across = (mm.x - border.left) / (widthMm - border.left - border.right);
      const down = (mm.y - border.top) / (heightMm - border.top - border.bottom);
      if (across < 0 || across > 1 || down < 0 || down > 1) continue;
      rgb.fill(lightOfLightness(MIDDLE_LIGHTNESS + range * ((isDown ? down : across) - 0.5)), at, at + 3);
    }
  };

/** Half a percent of the pixels is left out at either end. */
export const tonesLadder: Ladder = {
  defect: "print of few tones or of many",
  reads: [{ measure: "tonalRangeDeltaL", truth: (level) => 0.99 * level }],
  levels: [5, 10, 20, 40, 80],
  levelUnit: "L* from its darkest to its brightest",
  draw: (level, seed) => captureSheet({ seed, turnDeg: (seed % 7) - 3, defects: [slope(level, seed % 2 === 0)] }),
};
