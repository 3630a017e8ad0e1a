import { labOf } from "#domain/measure/colour/lab.ts";
import { SRGB_TO_XYZ_D50 } from "#domain/measure/colour/srgb.ts";
import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;
const PAPER = [0.72, 0.71, 0.68] as const;

const lightOf = (level: number) => [1, 1 - level / 200, 1 - level / 100] as const;

/** L*, a*, b* of the paper in that light, from CIE 15. */
function truth(level: number): readonly number[] {
  const rgb = PAPER.map((value, k) => value * (lightOf(level)[k] as number));
  const row = (at: number) => rgb.reduce((sum, value, k) => sum + value * (SRGB_TO_XYZ_D50[at + k] as number), 0);
  return labOf(row(0), row(3), row(6));
}

/** Light that lacks a share of blue and half as much of green. */
export const castLadder: Ladder = {
  defect: "yellow light",
  reads: [
    { measure: "borderCastA", truth: (level) => truth(level)[1] as number },
    { measure: "borderCastB", truth: (level) => truth(level)[2] as number },
    { measure: "borderCastChroma", truth: (level) => Math.hypot(truth(level)[1] as number, truth(level)[2] as number) },
  ],
  levels: [0, 5, 10, 20, 40],
  levelUnit: "% of blue lost",
  draw: (level, seed) =>
    captureSheet({
      seed,
      cast: [...lightOf(level)],
      print: { ...SMALL, paper: PAPER, content: CONTENTS[seed % CONTENTS.length] ?? "scene" },
    }),
};
