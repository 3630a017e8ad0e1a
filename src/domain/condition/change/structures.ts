import { ciede2000 } from "../../measure/colour/ciede2000.ts";
import { robustSpread } from "../../measure/numbers/robust.ts";
import { blurred } from "../../measure/planes/grid-plane.ts";
import { grown, patchesOf } from "../../measure/planes/mask.ts";
import { CHAIN, longestWay } from "../../measure/surface/longest-way.ts";
import { labOfLight, luminanceOf } from "./colour-sheet.ts";
import { addedLight, doubtedByNeighbours, doubtOf, type Light } from "./doubts.ts";
import { BORDER, type LaidSheets } from "./lay-sheets.ts";
import { removeTone, type ToneRemoved, VEIL } from "./tone-removed.ts";
import { type Before, type DensitySheet, whatWasBefore } from "./what-was-before.ts";

export const STRUCTURE_KINDS = ["line", "spot", "patch"] as const;
export type StructureKind = (typeof STRUCTURE_KINDS)[number];

/** A place of the print that changed otherwise than the print as a whole. Lengths in mm of the sheet, as the older capture shows it. */
export type Structure = {
  /** line: such as a crack, a scratch or a hair; spot: compact and small; patch: such as a stain */
  readonly kind: StructureKind;
  readonly part: "border" | "picture";
  readonly areaMm2: number;
  /** the longest way through it */
  readonly lengthMm: number;
  readonly box: { readonly left: number; readonly top: number; readonly width: number; readonly height: number };
  /** CIEDE2000 of its middle colour against what was to be expected there */
  readonly deltaE2000: number;
  readonly deltaL: number;
  readonly deltaB: number;
  /** what the older capture shows there */
  readonly before: Before;
  /** what else than the print may have changed; null where nothing suggests so */
  readonly doubt: string | null;
};

/**
 * Smoothing, smallest density and spreads for what is thin and for what is broad. Six spreads hold for as many places as are looked
 * at: a grid of 3 million cells in three channels and two scales would by chance reach 5.8 once in ten sheets if errors were normal.
 */
const SCALES = [
  { sigmaMm: 0.08, leastDensity: 0.05, timesSpread: 6 },
  { sigmaMm: 0.4, leastDensity: 0.02, timesSpread: 6 },
] as const;
/** How far an edge may be off, in residuals of registration, and at least in cells. */
const TIMES_RESIDUAL = 2;
const LEAST_RESIDUAL_PX = 0.15;
/** How much of the detail that so broad a blur takes away may be left by unequal sharpness. */
const DETAIL_SIGMA_MM = 0.15;
const UNSHARP_SHARE = 0.15;
/** What the eye hardly sees beside the original: own, no source. */
const LEAST_DELTA_E = 1.5;
/** Tones whose scatter is told apart. */
const TONES = 8;
const LEAST_SPREAD = 0.003;
/** Octaves of detail told apart, and the fewest cells that speak for one. */
const DETAILS = 6;
const FEWEST_CELLS = 100;
const LEAST_MM2 = 0.15;
/** Parts of one structure may lie so far apart. */
const JOINED_MM = 0.5;
const THIN_TIMES = 5;
const THICKEST_LINE_MM = 1.2;
const SHORTEST_LINE_MM = 1.5;
const LARGEST_SPOT_MM2 = 3;
const MOST_STRUCTURES = 40;

/** New or grown structures, largest first, and how many there were beyond the 40 that are told. */
export function findStructures(sheets: LaidSheets): { readonly structures: Structure[]; readonly untold: number } {
  const removed = removeTone(sheets);
  const { width, height } = removed.left[0];
  const allowance = allowedAtDetail(sheets);
  const marked = new Uint8Array(width * height);
  for (const scale of SCALES) {
    for (const channel of [0, 1, 2] as const) {
      const smooth = blurred(removed.left[channel], scale.sigmaMm * sheets.pxPerMm).data;
      const spread = spreadByTone(smooth, removed.expected[channel], sheets.parts);
      const common = smooth.map((_, at) => Math.hypot(spread(at), allowance[at] as number));
      const excess = excessByDetail(smooth, common, allowance);
      for (let at = 0; at < marked.length; at++) {
        const value = Math.abs(smooth[at] as number);
        const limit = Math.max(scale.leastDensity, scale.timesSpread * excess(at) * (common[at] as number));
        if (value > limit) marked[at] = 1;
      }
    }
  }
  const joined = grown(marked, width, height, Math.max(1, Math.round(JOINED_MM * sheets.pxPerMm)));
  const older = densitySheet(sheets);
  const found = patchesOf(joined, width, height)
    .flatMap((patch) => structureOf(patch, marked, removed, sheets, older) ?? [])
    .sort((a, b) => b.areaMm2 - a.areaMm2)
    .map(doubtedByNeighbours);
  return { structures: found.slice(0, MOST_STRUCTURES), untold: Math.max(0, found.length - MOST_STRUCTURES) };
}

/**
 * Density that edges and fine detail leave where two captures do not lie exactly on each other or are not equally sharp: slope times
 * misfit, and a share of what a blur takes from detail; the largest of a cell and its neighbours.
 */
function allowedAtDetail({ older, pxPerMm, residual95Mm }: LaidSheets): Float32Array {
  const misfitPx = Math.max(LEAST_RESIDUAL_PX, TIMES_RESIDUAL * residual95Mm * pxPerMm);
  const light = luminanceOf(older);
  const { width, height } = light;
  const densities = light.data.map(densityOf);
  const soft = blurred(light, DETAIL_SIGMA_MM * pxPerMm).data;
  const allowed = densities.map((density, at) => {
    const across = (densities[at + 1] as number) - (densities[at - 1] as number);
    const down = (densities[at + width] as number) - (densities[at - width] as number);
    const misplaced = (Math.hypot(across, down) / 2) * (misfitPx / 3);
    return misplaced + UNSHARP_SHARE * Math.abs(density - densityOf(soft[at] as number)) || 0;
  });
  const across = allowed.map((value, at) => Math.max(value, allowed[at - 1] ?? 0, allowed[at + 1] ?? 0));
  return across.map((value, at) =>
    Math.max(value, across[at - width] ?? 0, at < width * (height - 1) ? (across[at + width] as number) : 0),
  );
}

const densitySheet = ({ older: { width, height, channels }, pxPerMm, parts }: LaidSheets): DensitySheet => ({
  width,
  height,
  pxPerMm,
  parts,
  densities: channels.map((channel) => channel.map(densityOf)),
});

const densityOf = (light: number) => -Math.log10(Math.max(0, light) + VEIL);

/** Robust spread of what is left, for places of like tone and part: noise is stronger in the dark, detail in the picture. */
function spreadByTone(left: Float32Array, expected: Float32Array, parts: Uint8Array): (at: number) => number {
  const toneOf = (at: number) =>
    parts[at] === BORDER ? TONES : Math.min(TONES - 1, Math.max(0, Math.floor(((expected[at] as number) + 5.6) * (TONES / 5.6))));
  const groups = Array.from({ length: TONES + 1 }, () => [] as number[]);
  const stride = Math.max(1, Math.floor(left.length / 30_000));
  for (let at = 0; at < left.length; at += stride) if (!Number.isNaN(left[at])) groups[toneOf(at)]?.push(left[at] as number);
  const all = robustSpread(groups.flat(), 0);
  const spreads = groups.map((values) => Math.max(LEAST_SPREAD, values.length < 50 ? all : robustSpread(values, 0)));
  return (at) => spreads[toneOf(at)] as number;
}

/**
 * How far this pair leaves more at places of like detail than was allowed, at least 1: a place must stand out against what all
 * edges of the sheet leave, for whichever reason. Told by what a fifth of the cells exceed, so that the thin tails that edges
 * have count, and a stain over less than that does not; where there is next to no detail, by the middle one.
 */
function excessByDetail(left: Float32Array, common: Float32Array, allowance: Float32Array): (at: number) => number {
  const classOf = (at: number) => Math.min(DETAILS - 1, Math.max(0, Math.ceil(Math.log2((allowance[at] as number) / LEAST_SPREAD))));
  const groups = Array.from({ length: DETAILS }, () => [] as number[]);
  const stride = Math.max(1, Math.floor(left.length / 60_000));
  for (let at = 0; at < left.length; at += stride) {
    const times = Math.abs(left[at] as number) / (common[at] as number);
    if (!Number.isNaN(times)) groups[classOf(at)]?.push(times);
  }
  const found = groups.map((values, index) => {
    if (values.length < FEWEST_CELLS) return null;
    const sorted = values.sort((a, b) => a - b);
    const [share, normal] = index === 0 ? [0.5, 0.6745] : [0.8, 1.2816];
    return Math.max(1, (sorted[Math.floor(share * sorted.length)] as number) / normal);
  });
  // a class of few cells is judged as the next lesser detail
  const filled = found.map((value, index) => value ?? found.slice(0, index).findLast((each) => each !== null) ?? 1);
  return (at) => filled[classOf(at)] as number;
}

/**
 * A structure from a patch that holds marked cells: its cells are those at least half as strong as its strong ones along the
 * direction in colour in which it changed, so that blur and the depth of the search do not change its area.
 */
function structureOf(
  patch: readonly number[],
  marked: Uint8Array,
  removed: ToneRemoved,
  sheets: LaidSheets,
  older: DensitySheet,
): Structure | null {
  const { pxPerMm, parts } = sheets;
  const { width, height } = sheets.older;
  const seeds = patch.filter((at) => marked[at] === 1);
  const towards = unit(removed.left.map((plane) => meanOf(seeds, plane.data)));
  const strength = (at: number) =>
    removed.left.reduce((sum, plane, channel) => sum + (towards[channel] as number) * (plane.data[at] as number), 0);
  const cells = new Map(patch.map((at) => [at, smoothed(strength, at, width, height)]));
  const strong = seeds
    .map((at) => cells.get(at) as number)
    .filter((value) => !Number.isNaN(value))
    .sort((a, b) => b - a);
  const half = (strong[Math.floor(strong.length / 10)] ?? 0) / 2;
  if (half <= 0) return null;
  const core = patch.filter((at) => (cells.get(at) as number) >= half);
  const areaMm2 = core.length / pxPerMm ** 2;
  if (areaMm2 < LEAST_MM2) return null;
  const connected = largestOf(core, width, height);
  const lengthMm = (CHAIN * longestWay(connected, width).lengthPx + 1) / pxPerMm;
  const [columns, rows] = [core.map((at) => at % width), core.map((at) => Math.floor(at / width))];
  const span = (values: readonly number[]) => [values.reduce((a, b) => Math.min(a, b)), values.reduce((a, b) => Math.max(a, b))] as const;
  const [[left, right], [top, bottom]] = [span(columns), span(rows)];
  const light = (of: (channel: 0 | 1 | 2) => number): Light => [Math.exp(of(0)) - VEIL, Math.exp(of(1)) - VEIL, Math.exp(of(2)) - VEIL];
  const [expectedLight, foundLight] = [
    light((channel) => meanOf(core, removed.expected[channel])),
    light((channel) => meanOf(core, removed.expected[channel]) - Math.LN10 * meanOf(core, removed.left[channel].data)),
  ];
  const [expected, found] = [labOfLight(...expectedLight), labOfLight(...foundLight)];
  const deltaE2000 = ciede2000(expected, found);
  if (deltaE2000 < LEAST_DELTA_E) return null;
  const kind = kindOf(areaMm2, lengthMm);
  const deltaL = found[0] - expected[0];
  const part = core.filter((at) => parts[at] === BORDER).length > core.length / 2 ? "border" : "picture";
  return {
    kind,
    part,
    areaMm2,
    lengthMm,
    box: { left: left / pxPerMm, top: top / pxPerMm, width: (right - left + 1) / pxPerMm, height: (bottom - top + 1) / pxPerMm },
    deltaE2000,
    deltaL,
    deltaB: found[2] - expected[2],
    before: whatWasBefore(older, { cells: core, towards, density: 2 * half, isInPicture: part === "picture" }),
    doubt: doubtOf({ kind, areaMm2, lengthMm, deltaL }, addedLight(expectedLight, foundLight)),
  };
}

function kindOf(areaMm2: number, lengthMm: number): StructureKind {
  const widthMm = areaMm2 / lengthMm;
  if (lengthMm >= SHORTEST_LINE_MM && lengthMm >= THIN_TIMES * widthMm && widthMm <= THICKEST_LINE_MM) return "line";
  return areaMm2 <= LARGEST_SPOT_MM2 ? "spot" : "patch";
}

/** Mean of a cell and its eight neighbours, as far as they hold something. */
function smoothed(of: (at: number) => number, at: number, width: number, height: number): number {
  const [x, y] = [at % width, Math.floor(at / width)];
  if (Number.isNaN(of(at))) return Number.NaN;
  let [sum, weights] = [0, 0];
  for (let j = Math.max(0, y - 1); j <= Math.min(height - 1, y + 1); j++) {
    for (let i = Math.max(0, x - 1); i <= Math.min(width - 1, x + 1); i++) {
      const value = of(j * width + i);
      if (Number.isNaN(value)) continue;
      const weight = (i === x ? 2 : 1) * (j === y ? 2 : 1);
      sum += weight * value;
      weights += weight;
    }
  }
  return sum / weights;
}

function largestOf(cells: readonly number[], width: number, height: number): number[] {
  const mask = new Uint8Array(width * height);
  for (const at of cells) mask[at] = 1;
  return patchesOf(mask, width, height).reduce((most, patch) => (patch.length > most.length ? patch : most), [] as number[]);
}

function meanOf(cells: readonly number[], data: Float32Array): number {
  let [sum, count] = [0, 0];
  for (const at of cells) {
    const value = data[at] as number;
    if (Number.isNaN(value)) continue;
    sum += value;
    count++;
  }
  return count === 0 ? 0 : sum / count;
}

function unit(vector: readonly number[]): number[] {
  const length = Math.hypot(...vector) || 1;
  return vector.map((value) => value / length);
}
