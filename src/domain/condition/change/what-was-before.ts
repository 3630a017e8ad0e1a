import { solve } from "../../measure/numbers/least-squares.ts";
import { quantile } from "../../measure/numbers/robust.ts";
import { grown, patchesOf } from "../../measure/planes/mask.ts";
import { CHAIN, longestWay } from "../../measure/surface/longest-way.ts";

/** What the older capture shows where a place changed. */
export type Before =
  /** nothing of that kind, there or touching it */
  | { readonly state: "new" }
  /** it touches a place of that kind: how large that was, and how much of the changed place lies beyond it */
  | { readonly state: "grown"; readonly beforeMm2: number; readonly grownMm2: number }
  /** a place of that kind was there already, and reaches hardly further */
  | { readonly state: "stronger"; readonly beforeMm2: number }
  /** the older capture differs there from what is around it, and the newer one less */
  | { readonly state: "weaker" }
  | { readonly state: "not-told"; readonly reason: string };

/** One capture's sheet: optical density of each channel, and the part of the sheet that each cell belongs to. */
export type DensitySheet = {
  readonly width: number;
  readonly height: number;
  readonly pxPerMm: number;
  readonly densities: readonly Float32Array[];
  readonly parts: Uint8Array;
};

export type ChangedPlace = {
  /** its cells */
  readonly cells: readonly number[];
  /** direction in densities, of length 1, in which it changed */
  readonly towards: readonly number[];
  /** how far it changed in that direction */
  readonly density: number;
  /** where what it touches may be a detail of the picture */
  readonly isInPicture: boolean;
};

/** So far around a place its older state is looked for. */
const REACH_MM = 10;
/** The surroundings: near enough to be of its tone, far enough not to be its blurred rim. */
const RING_MM = [0.7, 3] as const;
const FEWEST_CELLS = 60;
/** Parts of one structure may lie so far apart, as where places are joined. */
const TOUCHING_MM = 0.5;
/** An older place counts from this share of the change on, and from so many spreads of what is around. */
const LEAST_SHARE = 1 / 3;
const TIMES_SPREAD = 4;
const LEAST_DENSITY = 0.02;
const LEAST_MM2 = 0.15;
/** Of the older place's colour and the change, as a cosine: the same kind of thing. */
const SAME_COLOUR = 0.85;
const LIKE_COLOUR = 0.4;
/** In a picture, what is so much smaller than the changed place may as well be a detail. */
const LEAST_OF_CHANGED = 0.15;
/** What reaches so little beyond has not grown. */
const HARDLY_FURTHER = 0.15;
const THICKEST_LINE_MM = 1.2;
const WEAKER_SHARE = 0.5;

/** Noise of a cell, so that surroundings of one tone do not decide by rounding. */
const LEAST_SPREAD = 0.01;

/**
 * Whether a changed place is new, or touches one that the older capture shows: cells that stand out from their surroundings as the
 * place changed. They are looked at along the one mixture of the three channels that answers the change in full and what is
 * around as little as possible (R. A. Fisher's linear discriminant, 1936), so that light and dark of a picture do not hide a
 * stain. Surroundings are told by the lesser part of what is around, so that an older place over half of it does not count as
 * background. In a picture, what it shows itself can look like an older place. The limits are our own.
 */
export function whatWasBefore(older: DensitySheet, place: ChangedPlace): Before {
  const { pxPerMm } = older;
  const window = windowAround(older, place.cells, Math.round(REACH_MM * pxPerMm));
  const { width, height } = window;
  const reach = (mm: number) => Math.max(1, Math.round(mm * pxPerMm));
  const core = new Uint8Array(width * height);
  for (const at of place.cells) core[window.inside(at)] = 1;
  const ring = ringAround(core, window, reach).filter((at) => !Number.isNaN(along(older.densities, window.outside(at), place.towards)));
  if (ring.length < FEWEST_CELLS) return { state: "not-told", reason: "too little is seen around it" };
  const scatter = scatterOf(older.densities, lesserHalf(ring.map(window.outside), older.densities, place.towards));
  const mixture = mixtureFor(place.towards, scatter);
  const towards = (at: number) => meanAround(older, window.outside(at), mixture);
  const around = ring.map(towards);
  const [twentieth, quarter] = [quantile(around, 0.05), quantile(around, 0.25)];
  // of normal errors the 5th and 25th of a hundred lie 0.97 spreads apart, the 25th 0.67 below the middle
  const spread = (quarter - twentieth) / 0.97;
  const background = quarter + 0.67 * spread;
  const limit = Math.max(LEAST_SHARE * place.density, TIMES_SPREAD * spread, LEAST_DENSITY);
  if (limit > place.density) return { state: "not-told", reason: "what is around it is as uneven as the change" };

  const standing = core.map((_, at) => (window.isSamePart(at) && towards(at) - background > limit ? 1 : 0));
  const touching = grown(core, width, height, reach(TOUCHING_MM));
  const touched = patchesOf(standing, width, height)
    .filter((patch) => patch.length / pxPerMm ** 2 >= LEAST_MM2 && patch.some((at) => touching[at] === 1))
    .map((patch) => ({ patch, likeness: likeness(contrastOf(older, window, patch, ring), place.towards, scatter) }));
  const found = touched.filter((each) => each.likeness >= SAME_COLOUR).map(({ patch }) => patch);
  if (found.length === 0 && touched.some((each) => each.likeness >= LIKE_COLOUR))
    return { state: "not-told", reason: "it touches something of nearly its colour" };
  if (found.length === 0) {
    const middle = quantile(around, 0.5);
    const opposite = Math.max(place.density / 2, TIMES_SPREAD * spread, LEAST_DENSITY);
    const weaker = place.cells.filter((at) => towards(window.inside(at)) - middle < -opposite).length;
    return { state: weaker >= WEAKER_SHARE * place.cells.length ? "weaker" : "new" };
  }
  if (found.some((patch) => goesOn(patch, window, pxPerMm)))
    return { state: "not-told", reason: "it touches something that goes on far around it, as a part of the picture does" };
  const before = new Set(found.flat());
  const beyond = place.cells.filter((at) => !before.has(window.inside(at))).length / pxPerMm ** 2;
  const beforeMm2 = before.size / pxPerMm ** 2;
  if (place.isInPicture && before.size < LEAST_OF_CHANGED * place.cells.length)
    return { state: "not-told", reason: "it touches something small of its colour, as a picture shows it too" };
  const least = Math.max(LEAST_MM2, (HARDLY_FURTHER * place.cells.length) / pxPerMm ** 2);
  return beyond < least ? { state: "stronger", beforeMm2 } : { state: "grown", beforeMm2, grownMm2: beyond };
}

type Window = {
  readonly width: number;
  readonly height: number;
  /** cell of the window from cell of the sheet, and back */
  readonly inside: (at: number) => number;
  readonly outside: (at: number) => number;
  /** whether a cell of the window lies in the part of the sheet that the place lies in */
  readonly isSamePart: (at: number) => boolean;
  /** whether a cell lies at an edge of the window that is no edge of the sheet's part */
  readonly isAtEdge: (at: number) => boolean;
};

function windowAround({ width, height, parts }: DensitySheet, cells: readonly number[], reach: number): Window {
  let [left, right, top, bottom] = [width, 0, height, 0];
  for (const at of cells) {
    const [x, y] = [at % width, Math.floor(at / width)];
    [left, right, top, bottom] = [Math.min(left, x), Math.max(right, x), Math.min(top, y), Math.max(bottom, y)];
  }
  [left, top] = [Math.max(0, left - reach), Math.max(0, top - reach)];
  const across = Math.min(width, right + reach + 1) - left;
  const down = Math.min(height, bottom + reach + 1) - top;
  const outside = (at: number) => (top + Math.floor(at / across)) * width + left + (at % across);
  const part = parts[cells[cells.length >> 1] as number];
  return {
    width: across,
    height: down,
    inside: (at) => (Math.floor(at / width) - top) * across + (at % width) - left,
    outside,
    isSamePart: (at) => parts[outside(at)] === part,
    isAtEdge: (at) => {
      const [x, y] = [at % across, Math.floor(at / across)];
      return x === 0 || y === 0 || x === across - 1 || y === down - 1;
    },
  };
}

/** Cells around the place but not enclosed by it: inside a ring lies what has grown. */
function ringAround(core: Uint8Array, window: Window, reach: (mm: number) => number): number[] {
  const { width, height } = window;
  const [near, far] = [grown(core, width, height, reach(RING_MM[0])), grown(core, width, height, reach(RING_MM[1]))];
  const open = patchesOf(
    near.map((cell) => 1 - cell),
    width,
    height,
  ).filter((patch) => patch.some(window.isAtEdge));
  return open.flat().filter((at) => far[at] === 1 && window.isSamePart(at));
}

/** A broad thing that leaves the window; a crack may. */
function goesOn(patch: readonly number[], window: Window, pxPerMm: number): boolean {
  if (!patch.some(window.isAtEdge)) return false;
  const lengthMm = (CHAIN * longestWay(patch, window.width).lengthPx + 1) / pxPerMm;
  return patch.length / pxPerMm ** 2 / lengthMm > THICKEST_LINE_MM;
}

/** Mean of a cell and its eight neighbours along a direction. */
function meanAround({ width, height, densities }: DensitySheet, at: number, towards: readonly number[]): number {
  const [x, y] = [at % width, Math.floor(at / width)];
  let [sum, count] = [0, 0];
  for (let j = Math.max(0, y - 1); j <= Math.min(height - 1, y + 1); j++)
    for (let i = Math.max(0, x - 1); i <= Math.min(width - 1, x + 1); i++) {
      const value = along(densities, j * width + i, towards);
      if (Number.isNaN(value)) continue;
      sum += value;
      count++;
    }
  return count === 0 ? Number.NaN : sum / count;
}

const along = (densities: readonly Float32Array[], at: number, towards: readonly number[]): number =>
  densities.reduce((sum, plane, channel) => sum + (towards[channel] as number) * (plane[at] as number), 0);

/** How a patch differs from the ring, channel by channel. */
function contrastOf(older: DensitySheet, window: Window, patch: readonly number[], ring: readonly number[]): number[] {
  const middle = (plane: Float32Array, cells: readonly number[]) => {
    const values = cells.map((at) => plane[window.outside(at)] as number).filter((value) => !Number.isNaN(value));
    return quantile(values, 0.5);
  };
  return older.densities.map((plane) => middle(plane, patch) - middle(plane, ring));
}

/** Without an older place of that kind among them. */
function lesserHalf(cells: readonly number[], densities: readonly Float32Array[], towards: readonly number[]): number[] {
  const middle = quantile(
    cells.map((at) => along(densities, at, towards)),
    0.5,
  );
  return cells.filter((at) => along(densities, at, towards) <= middle);
}

/** How the channels of the surroundings vary together: covariance, row by row. */
function scatterOf(densities: readonly Float32Array[], cells: readonly number[]): number[] {
  const means = densities.map((plane) => cells.reduce((sum, at) => sum + (plane[at] as number), 0) / cells.length);
  const off = (channel: number, at: number) => ((densities[channel] as Float32Array)[at] as number) - (means[channel] as number);
  return densities.flatMap((_, i) =>
    densities.map((_, j) => cells.reduce((sum, at) => sum + off(i, at) * off(j, at), 0) / cells.length + (i === j ? LEAST_SPREAD ** 2 : 0)),
  );
}

const times = (a: readonly number[], b: readonly number[]) => a.reduce((sum, value, index) => sum + value * (b[index] as number), 0);

/** What is told by a direction where the surroundings scatter so: the scatter's inverse, applied. */
const freed = (direction: readonly number[], scatter: readonly number[]): number[] => solve([...scatter], [...direction]) ?? [...direction];

/** The mixture of channels that answers a step in that direction by its length, and the surroundings least. */
function mixtureFor(towards: readonly number[], scatter: readonly number[]): number[] {
  const told = freed(towards, scatter);
  return told.map((value) => value / times(told, towards));
}

/** Cosine between two steps in colour, where the surroundings scatter so. */
function likeness(a: readonly number[], b: readonly number[], scatter: readonly number[]): number {
  const [toldA, toldB] = [freed(a, scatter), freed(b, scatter)];
  return times(toldA, b) / (Math.sqrt(times(toldA, a) * times(toldB, b)) || 1);
}
