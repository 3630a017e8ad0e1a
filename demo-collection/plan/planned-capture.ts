import type { Side } from "#domain/capture/capture.ts";
import type { Placed } from "../capture-model/scene.ts";
import type { Taken } from "../capture-model/taken.ts";
import type { Ageing } from "../print-drawing.ts";

/** A capture to be made: which sheets, by which set-up, into which file. */
export type PlannedCapture = {
  readonly file: string;
  readonly setUp: string | null;
  readonly prints: readonly string[];
  readonly side?: Side;
  readonly takenAt: string;
  readonly wrong: string | null;
  readonly ageing?: Ageing;
  readonly take: (sheets: readonly Placed[]) => Taken;
  readonly output: Output;
};

export type Output = {
  readonly kind: "jpeg" | "png" | "tiff";
  readonly quality?: number;
  /** one channel, for a black-and-white print developed as such */
  readonly grey?: boolean;
  /** EXIF orientation 6: stored lying, to be turned a quarter clockwise */
  readonly lying?: boolean;
  /** pixels per inch the file claims, rightly or not */
  readonly claimedPpi: number;
  readonly device: "phone" | "sheet-fed" | "flatbed" | "copy camera";
  readonly exposureTime?: string;
  readonly fNumber?: string;
  readonly iso?: string;
  readonly focalLength?: string;
  readonly focalLength35?: string;
};

/** The only sheet of a capture of one print. */
export function only(sheets: readonly Placed[]): Placed {
  const [sheet] = sheets;
  if (!sheet || sheets.length !== 1) throw new Error(`one sheet expected, ${sheets.length} given`);
  return sheet;
}
