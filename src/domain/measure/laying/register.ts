import { median } from "../numbers/robust.ts";
import type { GridPlane } from "../planes/grid-plane.ts";
import { type FineSource, halved, type Place, sampled, sampledRoughly } from "./fine-source.ts";
import { FLAT, fitShifts, heightAt, type Shift, type Surface } from "./register-surface.ts";
import { TILE_PX, tileShift } from "./register-tiles.ts";

/** The fine grid of a set of captures: the reference's picture, straightened. */
export type FineGrid = { readonly width: number; readonly height: number; readonly pxPerMm: number };

/** The way from a place of the fine grid (shares of its size, 0 to 1) to a pixel of a frame. */
export type WayToFrame = (x: number, y: number, into: Place) => void;

/** One capture laid on the reference in the fine grid. */
export type Registered = {
  readonly plane: GridPlane;
  /** where a pixel of the grid lies in the frame */
  readonly placeOf: (x: number, y: number, into: Place) => void;
  /** shifts still found in single tiles: the middle one, and the one that a twentieth of the tiles exceed; px of the grid */
  readonly residualPx: number;
  readonly residual95Px: number;
  /** so far inside the grid's edges the middles of its outermost tiles lie: nearer to them nothing fixed the places, px */
  readonly insetPx: number;
};

/** About 300 pixels per inch: fine enough for a hundredth of a millimetre, and quick. */
const TILES_PX_PER_MM = 12;
const MOST_TILES = 9;
const PASSES = 2;
/** Chance peaks stay below. */
const LEAST_SHARPNESS = 8;
const FEWEST_TILES = 8;
const FEWEST_QUADRANTS = 3;

/** Tiles of the reference, which others are registered to. */
export type ReferenceTiles = {
  readonly tiles: readonly { readonly x: number; readonly y: number; readonly plane: GridPlane }[];
  readonly step: number;
};

export function referenceTiles(source: FineSource, way: WayToFrame, grid: FineGrid): ReferenceTiles {
  const step = Math.max(1, Math.round(grid.pxPerMm / TILES_PX_PER_MM));
  const placeOf = placesOn(grid, way, FLAT, FLAT);
  const coarse = coarsened(source, placeOf, grid, step);
  return { step, tiles: tilesOf(grid, step).map((tile) => ({ ...tile, plane: tileFrom(coarse, placeOf, tile, step) })) };
}

/**
 * Registers a capture to the reference over the whole picture: shifts of single tiles by phase correlation, a smooth
 * third-order surface through them (lens barrel and gentle curl included), and the tiles sampled again from the source,
 * twice. Null when too few tiles agree, or they lie on one side.
 * Source: shifts as in register-tiles.ts; the rest common practice, no source.
 * @param way where the reference's places lie in this frame as far as coarse alignment tells
 */
export function register(
  { tiles, step }: ReferenceTiles,
  { source, way }: { readonly source: FineSource; readonly way: WayToFrame },
  grid: FineGrid,
): Registered | null {
  const coarse = coarsened(source, placesOn(grid, way, FLAT, FLAT), grid, step);
  const middle = (step * (TILE_PX - 1)) / 2;
  let surfaces: { x: Surface; y: Surface } = { x: FLAT, y: FLAT };
  for (let pass = 0; pass < PASSES; pass++) {
    const shifts = shiftsOf(surfaces);
    if (shifts.length < FEWEST_TILES || quadrantsOf(shifts) < FEWEST_QUADRANTS) return null;
    const correction = fitShifts(shifts);
    if (!correction) return null;
    surfaces = { x: sum(surfaces.x, correction.x), y: sum(surfaces.y, correction.y) };
  }
  const left = shiftsOf(surfaces)
    .map(({ x, y }) => Math.hypot(x, y))
    .sort((a, b) => a - b);
  if (left.length < FEWEST_TILES) return null;
  return {
    ...straightened(source, placesOn(grid, way, surfaces.x, surfaces.y), grid),
    residualPx: median(left),
    residual95Px: left[Math.floor(0.95 * left.length)] as number,
    insetPx: middle,
  };

  /** Shifts in px of the grid. */
  function shiftsOf({ x, y }: { x: Surface; y: Surface }): Shift[] {
    const placeOf = placesOn(grid, way, x, y);
    return tiles.flatMap((tile) => {
      const shift = tileShift(tile.plane, tileFrom(coarse, placeOf, tile, step));
      if (!shift || shift.sharpness < LEAST_SHARPNESS) return [];
      return [{ u: uOf(tile.x + middle, grid.width), v: uOf(tile.y + middle, grid.height), x: step * shift.x, y: step * shift.y }];
    });
  }
}

/** The reference itself in its own grid. */
export function registeredReference(source: FineSource, way: WayToFrame, grid: FineGrid): Registered {
  return { ...straightened(source, placesOn(grid, way, FLAT, FLAT), grid), residualPx: 0, residual95Px: 0, insetPx: 0 };
}

function straightened(source: FineSource, placeOf: Registered["placeOf"], grid: FineGrid) {
  return { placeOf, plane: sampled(source, grid.width, grid.height, framePxPerPx(placeOf, grid), placeOf) };
}

/** How many pixels of the frame one pixel of the grid covers along a side, in the middle. */
function framePxPerPx(placeOf: Registered["placeOf"], { width, height }: FineGrid): number {
  const [here, right, below] = [
    { x: 0, y: 0 },
    { x: 0, y: 0 },
    { x: 0, y: 0 },
  ];
  const span = 16;
  placeOf(width / 2, height / 2, here);
  placeOf(width / 2 + span, height / 2, right);
  placeOf(width / 2, height / 2 + span, below);
  return (Math.hypot(right.x - here.x, right.y - here.y) + Math.hypot(below.x - here.x, below.y - here.y)) / 2 / span;
}

const uOf = (at: number, length: number) => (2 * (at + 0.5)) / length - 1;
const sum = (one: Surface, other: Surface): Surface => one.map((value, index) => value + (other[index] as number));

function placesOn({ width, height }: FineGrid, way: WayToFrame, x: Surface, y: Surface): Registered["placeOf"] {
  return (column, row, into) => {
    const [u, v] = [uOf(column, width), uOf(row, height)];
    way((column + 0.5 + heightAt(x, u, v)) / width, (row + 0.5 + heightAt(y, u, v)) / height, into);
  };
}

/** A source about as coarse as the tiles, so that a tile is sampled from few pixels. */
function coarsened(source: FineSource, placeOf: Registered["placeOf"], grid: FineGrid, step: number): FineSource {
  let result = source;
  while (step * framePxPerPx(placeOf, grid) >= Math.SQRT2 * result.reducedBy) result = halved(result);
  return result;
}

function tileFrom(source: FineSource, placeOf: Registered["placeOf"], tile: Tile, step: number): GridPlane {
  return sampledRoughly(source, TILE_PX, TILE_PX, (x, y, into) => placeOf(tile.x + step * x, tile.y + step * y, into));
}

/** Top left corner, px of the grid. */
type Tile = { readonly x: number; readonly y: number };

/** Tiles spread evenly, overlapping by half at the most. */
function tilesOf({ width, height }: FineGrid, step: number): Tile[] {
  const side = step * TILE_PX;
  const starts = (length: number) => {
    const count = Math.min(MOST_TILES, Math.max(1, Math.floor((2 * length) / side) - 1));
    return length < side ? [] : Array.from({ length: count }, (_, k) => (count === 1 ? 0 : (k * (length - side)) / (count - 1)));
  };
  return starts(height).flatMap((y) => starts(width).map((x) => ({ x, y })));
}

const quadrantsOf = (shifts: readonly Shift[]) => new Set(shifts.map(({ u, v }) => `${u < 0} ${v < 0}`)).size;
