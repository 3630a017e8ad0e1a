import type { Triple } from "./raster.ts";

/** How a process turns light into a sheet: reflectances, not densities, unless said. Drawn from experience of such prints, no source. */
export type Look = {
  /** the plain border */
  paper: Triple;
  /** the lightest and darkest the picture itself can be */
  lightest: Triple;
  darkest: Triple;
  /** 0 leaves no colour */
  saturation: number;
  /** above 1 darkens the middle tones */
  gamma: number;
  /** density of red, green and blue beside that of the middle: the tone of a black-and-white print */
  tone: Triple;
  /** standard deviation in the middle tones, relative */
  grain: number;
  /** relief of the surface, relative */
  texture: number;
  /** blur of the picture itself, mm */
  softnessMm: number;
};

export const LOOKS = {
  "integral colour": {
    paper: [0.8, 0.795, 0.76],
    lightest: [0.74, 0.735, 0.66],
    darkest: [0.022, 0.024, 0.026],
    saturation: 0.88,
    gamma: 1.12,
    tone: [1, 1, 1],
    grain: 0.012,
    texture: 0.004,
    softnessMm: 0.055,
  },
  "peel-apart colour": {
    paper: [0.83, 0.82, 0.77],
    lightest: [0.8, 0.785, 0.72],
    darkest: [0.016, 0.014, 0.015],
    saturation: 0.95,
    gamma: 1.08,
    tone: [1, 1, 1],
    grain: 0.01,
    texture: 0.004,
    softnessMm: 0.035,
  },
  "gelatin silver": {
    paper: [0.84, 0.83, 0.79],
    lightest: [0.83, 0.82, 0.78],
    darkest: [0.018, 0.017, 0.016],
    saturation: 0,
    gamma: 1.1,
    tone: [0.99, 1, 1.035],
    grain: 0.03,
    texture: 0.006,
    softnessMm: 0.03,
  },
  albumen: {
    paper: [0.7, 0.62, 0.48],
    lightest: [0.74, 0.66, 0.5],
    darkest: [0.075, 0.045, 0.032],
    saturation: 0,
    gamma: 1,
    tone: [0.87, 1, 1.12],
    grain: 0.008,
    texture: 0.007,
    softnessMm: 0.03,
  },
  "collodion printing-out": {
    paper: [0.36, 0.33, 0.28],
    lightest: [0.76, 0.7, 0.6],
    darkest: [0.04, 0.026, 0.028],
    saturation: 0,
    gamma: 1.05,
    tone: [0.9, 1.02, 1.05],
    grain: 0.006,
    texture: 0.003,
    softnessMm: 0.025,
  },
  chromogenic: {
    paper: [0.86, 0.85, 0.83],
    lightest: [0.85, 0.83, 0.78],
    darkest: [0.014, 0.012, 0.013],
    saturation: 1.02,
    gamma: 1.12,
    tone: [1, 1, 1],
    grain: 0.014,
    texture: 0.003,
    softnessMm: 0.03,
  },
  "dye destruction": {
    paper: [0.87, 0.87, 0.86],
    lightest: [0.86, 0.86, 0.845],
    darkest: [0.007, 0.006, 0.007],
    saturation: 1.16,
    gamma: 1.18,
    tone: [1, 1, 1],
    grain: 0.006,
    texture: 0.001,
    softnessMm: 0.018,
  },
} satisfies Record<string, Look>;

export type LookName = keyof typeof LOOKS;
