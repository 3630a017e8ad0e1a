import { homographyFromMm, project } from "../homography.ts";
import type { Quad } from "../picture.ts";
import { type GridPlane, resized, turnedBy } from "../planes/grid-plane.ts";
import type { SizeMm } from "../size-as-seen.ts";
import { type Alignment, alignPlanes } from "./align-planes.ts";
import { correlation, detailPlane } from "./detail-plane.ts";
import { gridPlaneOf, type PrintGrid } from "./print-grid.ts";
import type { WayToFrame } from "./register.ts";

/**
 * One capture laid on the reference of its set. All planes of a set have one size and show one place of the print at
 * one pixel; their corners are named as the reference's frame sees them.
 */
export type CoarselyLaid = {
  readonly captureId: number;
  readonly grid: PrintGrid;
  readonly isReference: boolean;
  /** quarter turns, clockwise, that bring this capture to how the reference lies */
  readonly quarters: number;
  /** linear luminance, not smoothed; NaN where this capture has nothing */
  readonly coarse: GridPlane;
  /** of `coarse`, about 4; null where the size of the print is not known */
  readonly pxPerMm: number | null;
  /** the picture's size as this capture's own frame sees it; null where it is not known */
  readonly sizeAsSeen: SizeMm | null;
  /** turns a plane or mask of the set to how this capture's own frame sees the print, for places that are kept */
  readonly asSeen: (plane: GridPlane) => GridPlane;
  /** to the pixels of the capture's frame; null where only the grid of the capture is known */
  readonly way: WayToFrame | null;
};

/** A capture with its straightened picture. */
export type ToCompare = { readonly captureId: number; readonly grid: PrintGrid };

export type Refused = { readonly captureId: number; readonly refused: string };

/** Where no size is known; and the most pixels along the longer side in any case. */
const LONG_SIDE_PX = 320;
const MOST_LONG_SIDE_PX = 640;
/** About 100 pixels per inch: glare is broad. */
const PX_PER_MM = 4;
const SMALLEST_SIDE_PX = 32;
const COARSE_LONG_SIDE_PX = 64;
/** Proportions that differ by more are not of one picture. */
const MOST_ASPECT_DIFFERENCE = 0.1;
const LEAST_CORRELATION = 0.35;
const MOST_RESIDUAL_PX = 0.3;
export const NONE_LINED_UP = "no other capture of this print could be lined up with this one";
const TOO_SMALL = "the picture is too small to be compared";

type Comparable = { readonly captureId: number; readonly grid: PrintGrid; readonly overview: GridPlane | null };

/**
 * Lays all captures, in any of four turns, on the one that looks most like the others; in the order given.
 * @param onto the capture to lay the others on instead
 */
export function layCaptures(captures: readonly ToCompare[], onto?: number): (CoarselyLaid | Refused)[] {
  const comparable = captures.map(({ captureId, grid }): Comparable => ({ captureId, grid, overview: overviewOf(grid) }));
  const reference = onto === undefined ? referenceOf(comparable) : comparable.find((each) => each.captureId === onto && each.overview);
  if (!reference) return captures.map(({ captureId }) => ({ captureId, refused: TOO_SMALL }));
  const target = workingPlane(reference.grid);
  return comparable.map((one) => lay(one, reference, target));
}

function scaledPlane(grid: PrintGrid, longSidePx: number): GridPlane {
  const factor = longSidePx / Math.max(grid.widthPx, grid.heightPx);
  return resized(gridPlaneOf(grid), Math.max(2, Math.round(grid.widthPx * factor)), Math.max(2, Math.round(grid.heightPx * factor)));
}

function overviewOf(grid: PrintGrid): GridPlane | null {
  return Math.min(grid.widthPx, grid.heightPx) < SMALLEST_SIDE_PX ? null : scaledPlane(grid, COARSE_LONG_SIDE_PX);
}

/** The capture that looks most like all the others. */
function referenceOf(captures: readonly Comparable[]): Comparable | null {
  const usable = captures.filter((each) => each.overview !== null);
  const likeness = (one: Comparable) =>
    usable.reduce((sum, other) => sum + (other === one ? 0 : Math.max(0, bestTurn(one, other).likeness)), 0);
  return (
    usable
      .map((one) => ({ one, sum: likeness(one) }))
      .reduce<{ one: Comparable; sum: number } | null>((best, each) => (!best || each.sum > best.sum ? each : best), null)?.one ?? null
  );
}

/** The quarter turns, clockwise, that bring `other` nearest to `reference`. */
function bestTurn(reference: Comparable, other: Comparable): { quarters: number; likeness: number } {
  let best = { quarters: 0, likeness: Number.NEGATIVE_INFINITY };
  const fixed = reference.overview && detailPlane(reference.overview);
  for (let quarters = 0; quarters < 4; quarters++) {
    const turned = other.overview && turnedBy(other.overview, quarters);
    if (!fixed || !turned || Math.abs(Math.log((turned.width * fixed.height) / (turned.height * fixed.width))) > MOST_ASPECT_DIFFERENCE)
      continue;
    const likeness = correlation(fixed.data, detailPlane(resized(turned, fixed.width, fixed.height)).data);
    if (likeness > best.likeness) best = { quarters, likeness };
  }
  return best;
}

/** Lays a capture on the reference, on the reference's working grid. */
function lay(one: Comparable, reference: Comparable, target: GridPlane): CoarselyLaid | Refused {
  const { captureId, grid } = one;
  if (one === reference) return laid(one, reference, target, 0, NO_SHIFT);
  if (!one.overview) return { captureId, refused: TOO_SMALL };
  const { quarters, likeness } = bestTurn(reference, one);
  if (!Number.isFinite(likeness))
    return {
      captureId,
      refused: "its picture has other proportions than that of the other captures; these captures may not show the same print",
    };
  const luminance = resized(turnedBy(gridPlaneOf(grid), quarters), target.width, target.height);
  const alignment = alignPlanes(target, luminance);
  const refused = whyNot(alignment);
  if (!alignment || refused) return { captureId, refused: refused ?? NONE_LINED_UP };
  return laid(one, reference, alignment.warped(luminance), quarters, alignment.shiftAt);
}

const NO_SHIFT: Alignment["shiftAt"] = () => ({ x: 0, y: 0 });

function laid(one: Comparable, reference: Comparable, coarse: GridPlane, quarters: number, shiftAt: Alignment["shiftAt"]): CoarselyLaid {
  const { captureId, grid } = one;
  const { pxPerMm, quad } = grid;
  const scale = reference.grid.pxPerMm;
  return {
    captureId,
    grid,
    isReference: one === reference,
    quarters,
    coarse,
    pxPerMm: scale === null ? null : (scale * coarse.width) / reference.grid.widthPx,
    sizeAsSeen: pxPerMm === null ? null : { widthMm: grid.widthPx / pxPerMm, heightMm: grid.heightPx / pxPerMm },
    asSeen: (plane) => turnedBy(plane, (4 - quarters) % 4),
    way: quad ? wayTo(quad, quarters, shiftAt) : null,
  };
}

/** From shares of the reference's picture by the coarse shifts, the turn and the capture's own quad to its frame. */
function wayTo(quad: Quad, quarters: number, shiftAt: Alignment["shiftAt"]): WayToFrame {
  const map = homographyFromMm(1, 1, quad);
  return (x, y, into) => {
    const shift = shiftAt(x, y);
    const [across, down] = [x + shift.x, y + shift.y];
    const [u, v] = [
      [across, down],
      [down, 1 - across],
      [1 - across, 1 - down],
      [1 - down, across],
    ][quarters % 4] as [number, number];
    const place = project(map, u, v);
    into.x = place.x;
    into.y = place.y;
  };
}

/** Why an alignment cannot be relied on, in words for the keeper. */
function whyNot(alignment: Alignment | null): string | null {
  if (!alignment) return "the picture has too little detail to line its captures up";
  if (alignment.correlation < LEAST_CORRELATION)
    return "it could not be lined up with the other captures: they show too little detail to go by, as of a plain wall, or they may not show the same print";
  if (alignment.residualPx() > MOST_RESIDUAL_PX)
    return "it could not be lined up exactly enough with the other captures, as when a print curls or one capture is blurred";
  return null;
}

function workingPlane(grid: PrintGrid): GridPlane {
  const wanted = grid.pxPerMm === null ? LONG_SIDE_PX : (PX_PER_MM * Math.max(grid.widthPx, grid.heightPx)) / grid.pxPerMm;
  return scaledPlane(grid, Math.max(2 * SMALLEST_SIDE_PX, Math.min(MOST_LONG_SIDE_PX, wanted)));
}
