import { smoothNoise } from "../random.ts";

/** What the print lies on: writes linear reflectances for a place in mm. */
export type Ground = (xMm: number, yMm: number, out: Float32Array) => void;

const paint = (out: Float32Array, r: number, g: number, b: number, by: number): void => {
  out[0] = r * by;
  out[1] = g * by;
  out[2] = b * by;
};

export const GROUNDS = {
  /** boards about 90 mm wide, grain along x */
  "wooden table": (xMm, yMm, out) => {
    const board = Math.floor((yMm + 37) / 92);
    const across = yMm + 2.5 * smoothNoise(xMm / 70, yMm / 30 + board * 9, 3);
    const rings = smoothNoise(across / 3.1, board * 5.5 + xMm / 260, 4);
    const fine = smoothNoise(xMm / 9, yMm * 2.6, 5);
    const gap = Math.abs(((yMm + 37) % 92) + (yMm + 37 < 0 ? 92 : 0) - 92) < 0.5 ? 0.35 : 1;
    paint(out, 0.3, 0.168, 0.083, (0.85 + 0.2 * rings + 0.07 * fine + 0.06 * smoothNoise(board, 1, 6)) * gap);
  },
  /** dark blue felt */
  "felt cloth": (xMm, yMm, out) => {
    const weave = smoothNoise(xMm * 1.9, yMm * 1.9, 7) * 0.12 + smoothNoise(xMm / 14, yMm / 14, 8) * 0.08;
    paint(out, 0.035, 0.045, 0.075, 1 + weave);
  },
  /** red and white checks of 9 mm */
  "checked oilcloth": (xMm, yMm, out) => {
    const column = Math.floor((xMm + 500) / 9) % 2;
    const row = Math.floor((yMm + 500) / 9) % 2;
    const depth = column + row;
    const worn = 1 + 0.03 * smoothNoise(xMm / 6, yMm / 6, 9);
    if (depth === 0) paint(out, 0.74, 0.72, 0.66, worn);
    else if (depth === 1) paint(out, 0.52, 0.24, 0.22, worn);
    else paint(out, 0.36, 0.055, 0.06, worn);
  },
  "grey linoleum": (xMm, yMm, out) => {
    const speck = smoothNoise(xMm * 0.9, yMm * 0.9, 10) > 0.55 ? 1.25 : 1;
    paint(out, 0.2, 0.205, 0.19, speck * (1 + 0.08 * smoothNoise(xMm / 11, yMm / 17, 11)));
  },
  "black velvet": (xMm, yMm, out) => paint(out, 0.012, 0.012, 0.013, 1 + 0.15 * smoothNoise(xMm * 1.3, yMm * 1.3, 12)),
  "black card": (xMm, yMm, out) => paint(out, 0.04, 0.04, 0.041, 1 + 0.03 * smoothNoise(xMm, yMm, 13)),
  "white lid": (xMm, yMm, out) => paint(out, 0.9, 0.905, 0.9, 1 + 0.006 * smoothNoise(xMm / 40, yMm / 40, 14)),
  "grey lid": (xMm, yMm, out) => paint(out, 0.5, 0.5, 0.49, 1 + 0.006 * smoothNoise(xMm / 40, yMm / 40, 15)),
} satisfies Record<string, Ground>;

export type GroundName = keyof typeof GROUNDS;
