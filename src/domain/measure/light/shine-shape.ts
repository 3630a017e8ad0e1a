import { areaOf } from "../lines.ts";
import { quantile } from "../numbers/robust.ts";
import type { Point } from "../picture.ts";
import { hullOf } from "../planes/components.ts";
import type { GridPlane } from "../planes/grid-plane.ts";
import { patchesOf } from "../planes/mask.ts";
import { reshaped } from "../planes/reshaped.ts";
import { barsIn } from "./shine-bars.ts";

/** What one reflection looks like, in figures that do not hang on its size; lengths in cells of the plane it was seen on. */
export type ShineShape = {
  /** cells that shine at half of its light or more, gaps closed */
  readonly cells: number;
  /** share of the plane that this is */
  readonly share: number;
  /** its middle, in shares of the plane's width and height */
  readonly middle: Point;
  /**
   * area of the largest four-cornered figure that fits into its hull, as a share of the hull: 1 for any four-cornered figure however it is
   * seen, 2/π = 0.64 for any ellipse, 0.71 for a regular octagon
   */
  readonly fourCornered: number;
  /** its area as a share of its hull: 1 where it bulges everywhere, less where something is cut out of its rim */
  readonly solidity: number;
  /** its length as a multiple of its breadth, by second moments: 1 for disc and square */
  readonly elongation: number;
  /** width over which its light falls from 80 to 20 %, as a share of the root of its area: about 0.4 for a Gaussian lobe */
  readonly softRim: number;
  /** share of its outline along the rim of what was looked at: there it is cut off, and its true shape not seen */
  readonly cutOff: number;
  /** straight dark bars that run through it from side to side */
  readonly bars: number;
  /** share of its hull that is dark in one compact patch, wider than a bar */
  readonly darkPatch: number;
};

/** A part of a plane that was looked at, with the light that something mirrored adds there. */
export type SeenShine = {
  /** light added, linear; NaN where it is not known */
  readonly light: GridPlane;
  /** 1 where it shines */
  readonly mask: Uint8Array;
  /** cells along the plane's edges that were not looked at */
  readonly marginCells: number;
};

/** Panes as far apart as this share of the plane's shorter side belong to one window; at least so many cells. */
const GAP_SHARE = 0.035;
const LEAST_GAP = 2;
const MOST_SHAPES = 4;
/** Gaps up to this share of the root of its hull's area are bars. */
const WIDEST_GAP = 0.12;
/** Peaks of noise do not count as its full light. */
const FULL_LIGHT = 0.9;
/** Directions in which the hull's outermost points are taken as its corners may lie. */
const DIRECTIONS = 36;

/**
 * The shapes of the reflections on a plane, the largest first: patches of the mask with what lies within a bar's width of them, each looked
 * at where its light is more than half of its full light.
 * Source: own; solidity and elongation as usual in shape analysis; 2/π is the square in its circle.
 */
export function shineShapes({ light, mask, marginCells }: SeenShine): ShineShape[] {
  const { width, height } = light;
  const gap = Math.max(LEAST_GAP, Math.round((GAP_SHARE * Math.min(width, height)) / 2));
  const joined = reshaped(mask, width, height, [gap]);
  return patchesOf(joined, width, height)
    .sort((a, b) => b.length - a.length)
    .slice(0, MOST_SHAPES)
    .flatMap((cells) => shapeOf(light, mask, cells, marginCells) ?? [])
    .sort((a, b) => b.cells - a.cells);
}

function shapeOf(light: GridPlane, mask: Uint8Array, cells: readonly number[], marginCells: number): ShineShape | null {
  const { width, height, data } = light;
  const shining = cells.filter((at) => mask[at] === 1);
  const full = quantile(
    Float64Array.from(shining, (at) => data[at] as number),
    FULL_LIGHT,
  );
  if (!(full > 0)) return null;
  const brighter = (share: number, among: readonly number[]) => among.filter((at) => (data[at] as number) > share * full);
  const half = new Uint8Array(data.length);
  for (const at of brighter(0.5, shining)) half[at] = 1;
  const panes = cells.filter((at) => half[at] === 1);
  if (panes.length === 0) return null;
  const spread = Math.sqrt(Math.abs(areaOf(hullOf(cornersOfCells(panes, width)))));
  const bar = Math.max(LEAST_GAP, Math.round((WIDEST_GAP * spread) / 2));
  const closed = reshaped(half, width, height, [bar, -bar]);
  const body = [...closed.keys()].filter((at) => closed[at] === 1);
  const hull = hullOf(cornersOfCells(body, width));
  const hullArea = Math.abs(areaOf(hull));
  const quad = largestQuad(hull);
  const [rimCells, cutCells, bodyRim] = rimsOf(half, closed, width, height, marginCells);
  const rim = (brighter(0.2, cells).length - brighter(0.8, cells).length) / Math.max(1, rimCells);
  return {
    cells: body.length,
    share: body.length / data.length,
    middle: middleOf(body, width, height),
    fourCornered: quad ? areaOf(quad) / hullArea : 0,
    solidity: body.length / hullArea,
    elongation: elongationOf(body, width),
    softRim: rim / Math.sqrt(body.length),
    cutOff: cutCells / Math.max(1, bodyRim),
    bars: quad ? barsIn(light, quad, full) : 0,
    darkPatch: darkPatchOf(light, half, hull, hullArea),
  };
}

/** All four corners of every cell. */
function cornersOfCells(cells: readonly number[], width: number): Point[] {
  const rows = new Map<number, [number, number]>();
  for (const at of cells) {
    const y = Math.floor(at / width);
    const x = at - y * width;
    const row = rows.get(y);
    if (row) rows.set(y, [Math.min(row[0], x), Math.max(row[1], x)]);
    else rows.set(y, [x, x]);
  }
  const points: Point[] = [];
  for (const [y, [first, last]] of rows) for (const x of [first, last + 1]) points.push({ x, y }, { x, y: y + 1 });
  return points.sort((a, b) => a.x - b.x || a.y - b.y);
}

/** The largest figure with four of the hull's outermost points as corners, clockwise as seen; null where there is none. */
function largestQuad(hull: readonly Point[]): [Point, Point, Point, Point] | null {
  const outermost = new Set<Point>();
  for (let k = 0; k < DIRECTIONS; k++) {
    const [cos, sin] = [Math.cos((2 * Math.PI * k) / DIRECTIONS), Math.sin((2 * Math.PI * k) / DIRECTIONS)];
    outermost.add(hull.reduce((best, point) => (point.x * cos + point.y * sin > best.x * cos + best.y * sin ? point : best)));
  }
  const points = hull.filter((point) => outermost.has(point));
  let best: [Point, Point, Point, Point] | null = null;
  let most = 0;
  for (let a = 0; a < points.length; a++)
    for (let c = a + 2; c < points.length; c++) {
      // of all figures with this diagonal the largest has the farthest point on either side of it
      const [from, to] = [points[a] as Point, points[c] as Point];
      const b = farthest(points.slice(a + 1, c), from, to);
      const d = farthest([...points.slice(c + 1), ...points.slice(0, a)], from, to);
      if (!b || !d) continue;
      const area = Math.abs(areaOf([from, b, to, d]));
      if (area > most) [most, best] = [area, [from, b, to, d]];
    }
  return best;
}

function farthest(points: readonly Point[], from: Point, to: Point): Point | null {
  let [best, most]: [Point | null, number] = [null, -1];
  for (const point of points) {
    const away = Math.abs((to.x - from.x) * (point.y - from.y) - (to.y - from.y) * (point.x - from.x));
    if (away > most) [best, most] = [point, away];
  }
  return best;
}

/** Cells on the outline of the half-lit mask; and of the closed one, those at the rim of what was looked at, and all. */
function rimsOf(
  half: Uint8Array,
  closed: Uint8Array,
  width: number,
  height: number,
  margin: number,
): readonly [rim: number, cut: number, all: number] {
  let [rim, cut, all] = [0, 0, 0];
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const at = y * width + x;
      if (half[at] === 1 && isOnRim(half, at, x, y, width, height)) rim++;
      if (closed[at] !== 1 || !isOnRim(closed, at, x, y, width, height)) continue;
      all++;
      if (x <= margin + 1 || y <= margin + 1 || x >= width - margin - 2 || y >= height - margin - 2) cut++;
    }
  }
  return [rim, cut, all];
}

const isOnRim = (mask: Uint8Array, at: number, x: number, y: number, width: number, height: number): boolean =>
  x === 0 ||
  y === 0 ||
  x === width - 1 ||
  y === height - 1 ||
  mask[at - 1] === 0 ||
  mask[at + 1] === 0 ||
  mask[at - width] === 0 ||
  mask[at + width] === 0;

function middleOf(cells: readonly number[], width: number, height: number): Point {
  let [x, y] = [0, 0];
  for (const at of cells) {
    const row = Math.floor(at / width);
    x += at - row * width;
    y += row;
  }
  return { x: (x / cells.length + 0.5) / width, y: (y / cells.length + 0.5) / height };
}

function elongationOf(cells: readonly number[], width: number): number {
  let [x, y, xx, xy, yy] = [0, 0, 0, 0, 0];
  for (const at of cells) {
    const row = Math.floor(at / width);
    const column = at - row * width;
    x += column;
    y += row;
    xx += column * column;
    xy += column * row;
    yy += row * row;
  }
  const n = cells.length;
  const [a, b, c] = [xx / n - (x / n) ** 2 + 1 / 12, xy / n - (x / n) * (y / n), yy / n - (y / n) ** 2 + 1 / 12];
  const root = Math.sqrt(((a - c) / 2) ** 2 + b * b);
  return Math.sqrt(((a + c) / 2 + root) / Math.max(1e-9, (a + c) / 2 - root));
}

/** Dark patches narrower than this share of the root of the hull's area are bars, or the wave of its outline. */
const NARROW = 0.17;

/** Where the light is not known nothing is known to be dark. */
function darkPatchOf({ width, height, data }: GridPlane, half: Uint8Array, hull: readonly Point[], hullArea: number): number {
  const dark = new Uint8Array(half.length);
  const [top, bottom] = [Math.min(...hull.map(({ y }) => y)), Math.max(...hull.map(({ y }) => y))];
  const [left, right] = [Math.min(...hull.map(({ x }) => x)), Math.max(...hull.map(({ x }) => x))];
  for (let y = top; y < bottom; y++)
    for (let x = left; x < right; x++) {
      const at = y * width + x;
      if (half[at] !== 1 && !Number.isNaN(data[at]) && isInsideHull(hull, x + 0.5, y + 0.5)) dark[at] = 1;
    }
  const narrow = Math.max(1, Math.round((NARROW * Math.sqrt(hullArea)) / 2));
  const compact = reshaped(dark, width, height, [-narrow, narrow]);
  const largest = patchesOf(compact, width, height).reduce((most, patch) => Math.max(most, patch.length), 0);
  return largest / hullArea;
}

/** Clockwise as seen: the inside lies to the right of every side. */
const isInsideHull = (hull: readonly Point[], x: number, y: number): boolean =>
  hull.every((from, index) => {
    const to = hull[(index + 1) % hull.length] as Point;
    return (to.x - from.x) * (y - from.y) - (to.y - from.y) * (x - from.x) >= 0;
  });
