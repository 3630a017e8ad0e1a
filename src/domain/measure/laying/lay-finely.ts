import { lengthOf } from "../lines.ts";
import type { Picture, Quad } from "../picture.ts";
import type { GridPlane } from "../planes/grid-plane.ts";
import { type FineSource, fineSource, kernelTransfer, type Place } from "./fine-source.ts";
import type { CoarselyLaid } from "./lay-captures.ts";
import { type FineGrid, type ReferenceTiles, type Registered, referenceTiles, register, registeredReference } from "./register.ts";

/** One capture laid on the others of its set: roughly always, finely where that can be done. */
export type Laid = CoarselyLaid & {
  readonly fine: Fine | null;
  /** why there is no fine plane, in words for the keeper */
  readonly notFine: string | null;
};

/** A capture registered over the whole picture; every fine plane of a set has one size and shows one place at one pixel. */
export type Fine = {
  /** linear luminance, sampled once from the capture's own pixels; NaN outside its frame */
  readonly plane: GridPlane;
  readonly pxPerMm: number;
  /** shifts still found in single tiles, px of the plane: the middle one, and the one that a twentieth of the tiles exceed */
  readonly residualPx: number;
  readonly residual95Px: number;
  /** so far inside the plane's edges the outermost places lie that were followed */
  readonly insetPx: number;
  /** pixels of the capture itself to the mm of the print, as far as they were used; its finest possible pattern is half of it */
  readonly ownPxPerMm: number;
  /** what sampling let through of a pattern, 0 to 1 */
  readonly transferAt: (cyPerMm: number) => number;
  /** where a pixel of the plane lies in the capture's frame, px */
  readonly placeOf: (x: number, y: number, into: Place) => void;
};

/** 800 pixels per inch: finer than what prints hold, as far as captures were seen to show. */
const MOST_PX_PER_MM = 32;
/** Bound the memory, 4 bytes each: of one plane, and of all. */
const MOST_PX = 8e6;
const MOST_PX_OF_ALL = 32e6;
const SIZE_UNKNOWN = "the size of the print is not known; enter it, and the captures are compared in fine detail";
const NO_PIXELS = "the capture's own pixels could not be read again";
const NOT_REGISTERED = "its detail could not be followed over the whole picture, as when a capture is very soft or the print is curled";

/**
 * Registers captures that lie coarsely on each other over the whole picture, each sampled from its own pixels: one is
 * decoded at a time and let go.
 * @param pictureOf decodes a capture; null where that cannot be done
 */
export async function layFinely(
  coarsely: readonly CoarselyLaid[],
  pictureOf: (captureId: number) => Promise<Picture | null>,
): Promise<Laid[]> {
  const grid = gridFor(coarsely);
  const reference = coarsely.find((each) => each.isReference);
  if (!grid || !reference) return coarsely.map((each) => ({ ...each, fine: null, notFine: grid ? NO_PIXELS : SIZE_UNKNOWN }));
  let tiles: ReferenceTiles | null = null;
  const laid = new Map<CoarselyLaid, Laid>();
  for (const one of [reference, ...coarsely.filter((each) => each !== reference)]) {
    const source = await sourceOf(one, grid, pictureOf);
    let registered: Registered | null = null;
    if (source && one.way && one === reference) {
      tiles = referenceTiles(source, one.way, grid);
      registered = registeredReference(source, one.way, grid);
    } else if (source && one.way && tiles) registered = register(tiles, { source, way: one.way }, grid);
    const fine = registered && source ? fineOf(one, registered, source, grid) : null;
    laid.set(one, { ...one, fine, notFine: fine ? null : source && tiles ? NOT_REGISTERED : NO_PIXELS });
  }
  return coarsely.map((each) => laid.get(each) as Laid);
}

/** As fine as the finest capture, within bounds; null where the size is not known. */
function gridFor(coarsely: readonly CoarselyLaid[]): FineGrid | null {
  const size = coarsely.find((each) => each.isReference)?.sizeAsSeen;
  if (!size) return null;
  const finest = Math.max(...coarsely.map(framePxPerMm));
  const most = Math.sqrt(Math.min(MOST_PX, MOST_PX_OF_ALL / coarsely.length) / (size.widthMm * size.heightMm));
  const pxPerMm = Math.min(MOST_PX_PER_MM, finest, most);
  return { width: Math.round(size.widthMm * pxPerMm), height: Math.round(size.heightMm * pxPerMm), pxPerMm };
}

/** 0 where only the grid of a capture is known. */
function framePxPerMm({ grid: { quad }, sizeAsSeen }: CoarselyLaid): number {
  return quad && sizeAsSeen ? Math.sqrt(quadSize(quad) / (sizeAsSeen.widthMm * sizeAsSeen.heightMm)) : 0;
}

const quadSize = (quad: Quad) =>
  ((lengthOf(quad, "top") + lengthOf(quad, "bottom")) * (lengthOf(quad, "left") + lengthOf(quad, "right"))) / 4;

async function sourceOf(
  one: CoarselyLaid,
  grid: FineGrid,
  pictureOf: (captureId: number) => Promise<Picture | null>,
): Promise<FineSource | null> {
  const picture = one.grid.quad ? await pictureOf(one.captureId) : null;
  return picture && one.grid.quad ? fineSource(picture, one.grid.quad, grid.pxPerMm / framePxPerMm(one)) : null;
}

function fineOf(one: CoarselyLaid, registered: Registered, { reducedBy }: FineSource, grid: FineGrid): Fine {
  const ownPxPerMm = framePxPerMm(one) / reducedBy;
  return {
    ...registered,
    pxPerMm: grid.pxPerMm,
    ownPxPerMm,
    transferAt: (cyPerMm) => kernelTransfer(cyPerMm / Math.min(ownPxPerMm, grid.pxPerMm)),
  };
}
