import { fileURLToPath } from "node:url";

/** What a set-up did wrong on the day of a check, each at a known strength. */
export type Faults = {
  /** linear multiplier of R, G, B */
  readonly gain: readonly [number, number, number];
  /** Gaussian blur in the middle and in the corners of the frame, standard deviation in px */
  readonly blurPx: readonly [middle: number, corners: number];
  /** how far red lies to the right of green, px */
  readonly redShiftPx: number;
  /** standard deviation from pixel to pixel as a share of the light */
  readonly noise: number;
};

export type DemoTargetCheck = {
  readonly file: string;
  readonly setUp: "stand-level" | "flatbed-black";
  readonly takenOn: string;
  readonly note: string;
  readonly ppi: number;
  readonly turnDegrees: number;
  readonly faults: Faults;
};

/** A plain sheet that fills the frame: light at the corners as a share of the middle. */
export type DemoEvenSheet = {
  readonly file: string;
  readonly setUp: "stand-level";
  readonly takenOn: string;
  readonly cornerLight: number;
};

export const DEMO_TARGET_PICTURES = fileURLToPath(new URL("./pictures", import.meta.url));

/** The bulbs of the copy stand age: in the last two months their blue goes. */
const STAND_DAYS: readonly (readonly [takenOn: string, exposure: number, blue: number, note: string])[] = [
  ["2025-03-01", 1.01, 1.0, "Lamps new, evened with a grey card"],
  ["2025-04-05", 0.99, 1.004, ""],
  ["2025-05-03", 1.0, 0.996, ""],
  ["2025-06-07", 1.012, 0.998, ""],
  ["2025-07-05", 0.992, 1.003, ""],
  ["2025-08-02", 1.004, 0.975, ""],
  ["2025-09-12", 0.98, 0.94, "The day before the album; the light looks warm"],
];

/** The flatbed is steady, and always a little light, with red beside green. */
const FLATBED_DAYS: readonly (readonly [takenOn: string, exposure: number])[] = [
  ["2016-03-11", 1.06],
  ["2018-05-05", 1.055],
  ["2020-02-08", 1.063],
  ["2022-04-02", 1.058],
  ["2023-04-01", 1.061],
  ["2024-03-15", 1.059],
];

/** What the two careful set-ups showed on the card, the oldest first. */
export const DEMO_TARGET_CHECKS: readonly DemoTargetCheck[] = [
  ...FLATBED_DAYS.map(
    ([takenOn, exposure]): DemoTargetCheck => ({
      file: `flatbed-card-${takenOn}.jpg`,
      setUp: "flatbed-black",
      takenOn,
      note: "",
      ppi: 400,
      turnDegrees: 0.6,
      faults: { gain: [exposure, exposure, exposure], blurPx: [0.8, 0.8], redShiftPx: 0.35, noise: 0.008 },
    }),
  ),
  ...STAND_DAYS.map(
    ([takenOn, exposure, blue, note]): DemoTargetCheck => ({
      file: `stand-card-${takenOn}.jpg`,
      setUp: "stand-level",
      takenOn,
      note,
      ppi: 400,
      turnDegrees: -0.4,
      faults: { gain: [exposure, exposure, exposure * blue], blurPx: [0.75, 1], redShiftPx: 0.1, noise: 0.01 },
    }),
  ),
];

export const DEMO_EVEN_SHEETS: readonly DemoEvenSheet[] = [
  { file: "stand-sheet-2025-09-12.jpg", setUp: "stand-level", takenOn: "2025-09-12", cornerLight: 0.9 },
];
