import { FLOAT_GREY, FLOAT_LAB, FLOAT_RGB, littleCms, RELATIVE_COLORIMETRIC } from "./little-cms.ts";

/** How codes become linear light and light becomes X, Y, Z: see domain/measure/picture.ts. */
export type ColourReading = {
  readonly linearOf: readonly [Float32Array, Float32Array, Float32Array];
  readonly toXyzD50: readonly number[];
};

/** ICC profile-connection white, D50 (ICC.1, 7.2.16; from memory). */
const WHITE = [0.9642, 1, 0.8249] as const;

/** A profile whose colours are off by more than this from curves and a matrix needs its tables. */
const MOST_DELTA_E = 0.5;

/**
 * Reads a profile as three curves and a matrix.
 * @param levels 256 or 65,536: entries of each curve
 * @returns null when the profile is no grey or RGB one, cannot be opened, or is not additive (it then needs its tables)
 */
export async function readProfile(icc: Uint8Array, levels: 256 | 65536): Promise<ColourReading | null> {
  const lcms = await littleCms();
  const profile = lcms.cmsOpenProfileFromMem(new Uint8Array(icc), icc.length);
  if (!profile) return null;
  const space = lcms.cmsGetColorSpaceASCII(profile)?.trim();
  const lab = lcms.cmsCreateLab4Profile(null);
  try {
    if (space !== "RGB" && space !== "GRAY") return null;
    const transform = lcms.cmsCreateTransform(profile, space === "RGB" ? FLOAT_RGB : FLOAT_GREY, lab, FLOAT_LAB, RELATIVE_COLORIMETRIC, 0);
    if (!transform) return null;
    const toXyz = (values: Float32Array): Float32Array =>
      labToXyz(lcms.cmsDoTransform(transform, values, values.length / (space === "RGB" ? 3 : 1)) as Float32Array);
    try {
      return space === "RGB" ? readRgb(toXyz, levels) : readGrey(toXyz, levels);
    } finally {
      lcms.cmsDeleteTransform(transform);
    }
  } finally {
    lcms.cmsCloseProfile(lab);
    lcms.cmsCloseProfile(profile);
  }
}

/** The profile's own name, cut to a line; null when it cannot be read. */
export async function profileName(icc: Uint8Array): Promise<string | null> {
  const lcms = await littleCms();
  const profile = lcms.cmsOpenProfileFromMem(new Uint8Array(icc), icc.length);
  if (!profile) return null;
  const name = lcms.cmsGetProfileInfoASCII(profile, 0, "en", "US") as string | null;
  lcms.cmsCloseProfile(profile);
  const line = (name ?? "").replaceAll(/\p{Cc}+/gu, " ").trim();
  return line === "" ? null : line.slice(0, 200);
}

type ToXyz = (values: Float32Array) => Float32Array;

function readRgb(toXyz: ToXyz, levels: number): ColourReading | null {
  const columns = [0, 1, 2].map((channel) => {
    const ramp = new Float32Array(levels * 3);
    for (let code = 0; code < levels; code++) ramp[code * 3 + channel] = code / (levels - 1);
    return toXyz(ramp);
  });
  const full = columns.map((xyz) => xyz.subarray((levels - 1) * 3));
  const curves = columns.map((xyz, channel) => curve(xyz, full[channel] as Float32Array, levels));
  const matrix = [0, 1, 2].flatMap((row) => full.map((xyz) => xyz[row] as number));
  const reading = { linearOf: curves as [Float32Array, Float32Array, Float32Array], toXyzD50: matrix };
  return isAdditive(toXyz, reading, levels) ? reading : null;
}

/** Share of the channel's full light at each code, along the direction of its own colour. */
function curve(xyz: Float32Array, full: Float32Array, levels: number): Float32Array {
  const length = full.reduce((sum, value) => sum + value * value, 0);
  const linear = new Float32Array(levels);
  for (let code = 0; code < levels; code++) {
    let along = 0;
    for (let row = 0; row < 3; row++) along += (xyz[code * 3 + row] as number) * (full[row] as number);
    linear[code] = Math.max(0, along / length);
  }
  return linear;
}

function readGrey(toXyz: ToXyz, levels: number): ColourReading {
  const ramp = Float32Array.from({ length: levels }, (_, code) => code / (levels - 1));
  const xyz = toXyz(ramp);
  const linear = Float32Array.from({ length: levels }, (_, code) => Math.max(0, xyz[code * 3 + 1] as number));
  return { linearOf: [linear, linear, linear], toXyzD50: WHITE.flatMap((each) => [each / 3, each / 3, each / 3]) };
}

/** A lattice of colours, read through curves and matrix and by the profile itself. */
function isAdditive(toXyz: ToXyz, reading: ColourReading, levels: number): boolean {
  const steps = [0.1, 0.35, 0.6, 0.85, 1].map((share) => Math.round(share * (levels - 1)) / (levels - 1));
  const colours = steps.flatMap((r) => steps.flatMap((g) => steps.map((b) => [r, g, b] as const)));
  const truth = toXyz(Float32Array.from(colours.flat()));
  return colours.every((colour, index) => {
    const light = colour.map((value, channel) => reading.linearOf[channel as 0 | 1 | 2][Math.round(value * (levels - 1))] as number);
    const xyz = [0, 1, 2].map((row) => light.reduce((sum, each, column) => sum + each * (reading.toXyzD50[row * 3 + column] as number), 0));
    return deltaE(xyz, truth.subarray(index * 3, index * 3 + 3)) <= MOST_DELTA_E;
  });
}

function deltaE(a: ArrayLike<number>, b: ArrayLike<number>): number {
  const f = (xyz: ArrayLike<number>, row: 0 | 1 | 2) => labCurve((xyz[row] as number) / WHITE[row]);
  const lab = (xyz: ArrayLike<number>) => [116 * f(xyz, 1), 500 * (f(xyz, 0) - f(xyz, 1)), 200 * (f(xyz, 1) - f(xyz, 2))] as const;
  const [first, second] = [lab(a), lab(b)];
  return Math.hypot(first[0] - second[0], first[1] - second[1], first[2] - second[2]);
}

/** CIE 15: the two constants are the exact fractions 216/24389 and 24389/27. */
const labCurve = (t: number) => (t > 216 / 24389 ? Math.cbrt(t) : ((24389 / 27) * t + 16) / 116);

function labToXyz(lab: Float32Array): Float32Array {
  const inverse = (f: number) => (f > 6 / 29 ? f ** 3 : (116 * f - 16) / (24389 / 27));
  const xyz = new Float32Array(lab.length);
  for (let at = 0; at < lab.length; at += 3) {
    const fy = ((lab[at] as number) + 16) / 116;
    xyz[at] = inverse(fy + (lab[at + 1] as number) / 500) * WHITE[0];
    xyz[at + 1] = inverse(fy);
    xyz[at + 2] = inverse(fy - (lab[at + 2] as number) / 200) * WHITE[2];
  }
  return xyz;
}
