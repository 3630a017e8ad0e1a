import type { CatalogueEntry } from "./entry.ts";

/** What the device adds of its own: noise, streaks, banding, moiré, colours out of register. */
export const DEVICE = {
  noiseDeltaL: {
    label: "Noise",
    unit: "L*",
    decimals: 2,
    better: "lower",
    region: "border",
    version: 3,
    meaning: "Grain of the capture in plain border patches, as standard deviation of L*.",
  },
  streakCount: {
    label: "Streaks",
    unit: "",
    decimals: 0,
    better: "lower",
    region: "border",
    version: 1,
    meaning:
      "Lines that run straight through the frame and through both opposite borders of the print: dirt on the sensor strip or on its glass.",
  },
  streakDeltaL: {
    label: "Strongest streak",
    unit: "L*",
    decimals: 2,
    better: "lower",
    region: "border",
    version: 2,
    meaning: "How much lighter or darker the strongest streak is than what lies beside it.",
  },
  bandingDeltaL: {
    label: "Banding",
    unit: "L*",
    decimals: 2,
    better: "lower",
    region: "border",
    version: 1,
    meaning: "How much lines at even distances, from the transport or a flickering lamp, swing from the mean lightness of the border.",
  },
  moirePercent: {
    label: "Regular pattern (moiré)",
    unit: "%",
    decimals: 1,
    better: "lower",
    region: "picture",
    version: 1,
    meaning:
      "How much a regular pattern that goes all over the picture swings its light: texture of the paper, a printing screen, or its beat with the pixels; one capture does not tell which.",
  },
  misregistrationPx: {
    label: "Misregistration of the colours",
    unit: "px",
    decimals: 2,
    better: "lower",
    region: "edges",
    version: 5,
    meaning: "How far red, green and blue lie apart at the edges of the sheet, across the edge that shows most.",
  },
} as const satisfies Record<string, CatalogueEntry>;
