import { linearToSrgb } from "../measure/colour/srgb.ts";
import { blurred, type GridPlane } from "../measure/planes/grid-plane.ts";
import type { SizeMm } from "../measure/size-as-seen.ts";
import { type MeanIn, windowMeans } from "./window-means.ts";

/** What a keeper looks at closely, in the order shown. */
export const CLOSE_UPS = ["border", "edge", "detail", "shadow"] as const;
export type CloseUpKind = (typeof CLOSE_UPS)[number];

/** The middle of a close-up, mm from the sheet's own top left. */
export type CloseUp = { readonly kind: CloseUpKind; readonly xMm: number; readonly yMm: number };

export type BoxMm = { readonly left: number; readonly top: number; readonly right: number; readonly bottom: number };

/** The sheet as captures show it, laid on each other: linear luminance, one size, NaN where a capture has nothing. */
export type LaidPlanes = {
  readonly planes: readonly GridPlane[];
  readonly pxPerMm: number;
  /** where the sheet's top left lies on the planes */
  readonly leftMm: number;
  readonly topMm: number;
  readonly sheetMm: SizeMm;
  /** null where no border was told apart */
  readonly pictureMm: BoxMm | null;
};

/** Fine detail as these planes can hold it: between two blurs of so many pixels. */
const FINE_PX = [0.6, 1.2] as const;
/** Picture edges are soft and a little out of place: kept off by so much. */
const GUARD_MM = 0.6;
/** A border narrower than this is no place to look at. */
const LEAST_BORDER_MM = 1;
/** On both sides of an edge so much is looked at, along it and away from it. */
const EDGE_MM = { along: 2, deep: 1.2, guard: 0.4 } as const;
/** Corners whose borders are about as wide count as equal. */
const AS_WIDE = 0.9;

/**
 * Chooses where captures are worth looking at closely, the same places for all: what all of them show decides, so that neither dust nor
 * glare nor noise of one of them does. Own; no source.
 * border: the corner with the widest borders, among equals the one with most texture; edge: where the picture's edge (else the sheet's)
 * has most contrast in the capture that shows least of it; detail: where most fine detail is shared; shadow: the darkest place.
 * @param sideMm of the square that is shown
 */
export function closeUpPlaces(laid: LaidPlanes, sideMm: number): CloseUp[] {
  const lightness = laid.planes.map(({ width, height, data }) => ({ width, height, data: data.map((light) => linearToSrgb(light)) }));
  const detail = windowMeans(sharedDetail(lightness));
  const tones = lightness.map(windowMeans);
  const places: Record<CloseUpKind, Place | null> = {
    border: borderCorner(laid, sideMm, detail),
    edge: edgeOfMostContrast(laid, tones),
    detail: bestWindow(laid, sideMm, detail),
    shadow: bestWindow(laid, sideMm / 2, (...box) => -middleOf(tones.map((mean) => mean(...box)))),
  };
  return CLOSE_UPS.flatMap((kind) => {
    const place = places[kind];
    return place ? [{ kind, xMm: place.x, yMm: place.y }] : [];
  });
}

type Place = { readonly x: number; readonly y: number };

/** How much of the fine detail at a pixel the captures have in common: the mean over pairs of them, of the root of what both show. */
function sharedDetail(lightness: readonly GridPlane[]): GridPlane {
  const { width, height } = lightness[0] as GridPlane;
  const bands = lightness.map((plane) => {
    const [fine, broad] = FINE_PX.map((sigma) => blurred(plane, sigma).data) as [Float32Array, Float32Array];
    return fine.map((value, at) => value - (broad[at] as number));
  });
  const pairs = bands.flatMap((one, index) => bands.slice(index + 1).map((other) => [one, other] as const));
  const data = new Float32Array(width * height);
  for (const [one, other] of pairs) {
    for (let at = 0; at < data.length; at++) {
      const product = (one[at] as number) * (other[at] as number);
      // the root: many fine things count for more than one hard edge
      data[at] = (data[at] as number) + (Math.sign(product) * Math.sqrt(Math.abs(product))) / pairs.length;
    }
  }
  return { width, height, data };
}

/** The middle of the window within the picture for which `worth` is largest. */
function bestWindow(laid: LaidPlanes, sideMm: number, worth: MeanIn): Place | null {
  const { pxPerMm, leftMm, topMm } = laid;
  const box = pictureBox(laid);
  const across = Math.min(sideMm, box.right - box.left - 2 * GUARD_MM);
  const down = Math.min(sideMm, box.bottom - box.top - 2 * GUARD_MM);
  const [width, height] = [Math.floor(across * pxPerMm), Math.floor(down * pxPerMm)];
  const from = { x: Math.ceil((leftMm + box.left + GUARD_MM) * pxPerMm), y: Math.ceil((topMm + box.top + GUARD_MM) * pxPerMm) };
  const to = { x: (leftMm + box.right - GUARD_MM) * pxPerMm - width, y: (topMm + box.bottom - GUARD_MM) * pxPerMm - height };
  const step = Math.max(1, Math.round(pxPerMm / 2));
  let best: { x: number; y: number; worth: number } | null = null;
  for (let y = from.y; y <= to.y; y += step) {
    for (let x = from.x; x <= to.x; x += step) {
      const here = worth(x, y, x + width, y + height);
      if (!Number.isNaN(here) && (!best || here > best.worth)) best = { x, y, worth: here };
    }
  }
  return best && { x: (best.x + width / 2) / pxPerMm - leftMm, y: (best.y + height / 2) / pxPerMm - topMm };
}

const pictureBox = ({ pictureMm, sheetMm }: LaidPlanes): BoxMm =>
  pictureMm ?? { left: 0, top: 0, right: sheetMm.widthMm, bottom: sheetMm.heightMm };

function borderCorner({ pictureMm, sheetMm, pxPerMm, leftMm, topMm }: LaidPlanes, sideMm: number, texture: MeanIn): Place | null {
  if (!pictureMm) return null;
  const corners = [pictureMm.left, sheetMm.widthMm - pictureMm.right].flatMap((across, right) =>
    [pictureMm.top, sheetMm.heightMm - pictureMm.bottom].map((down, below) => {
      const [halfX, halfY] = [Math.min(across, sideMm) / 2, Math.min(down, sideMm) / 2];
      const x = right ? sheetMm.widthMm - halfX : halfX;
      const y = below ? sheetMm.heightMm - halfY : halfY;
      const box = [x - halfX, y - halfY, x + halfX, y + halfY].map((mm, index) =>
        Math.round((mm + (index % 2 ? topMm : leftMm)) * pxPerMm),
      );
      return {
        x,
        y,
        widths: Math.min(across, sideMm) * Math.min(down, sideMm),
        least: Math.min(across, down),
        texture: texture(...(box as Four)),
      };
    }),
  );
  const wide = corners.filter(({ least }) => least >= LEAST_BORDER_MM);
  const widest = Math.max(...wide.map(({ widths }) => widths));
  const equals = wide.filter(({ widths }) => widths >= AS_WIDE * widest);
  const worth = (corner: { texture: number }) => (Number.isNaN(corner.texture) ? Number.NEGATIVE_INFINITY : corner.texture);
  return equals.reduce<(typeof equals)[number] | null>((best, each) => (best && worth(best) >= worth(each) ? best : each), null);
}

type Four = [number, number, number, number];

function edgeOfMostContrast(laid: LaidPlanes, tones: readonly MeanIn[]): Place | null {
  const { pxPerMm, leftMm, topMm } = laid;
  const { left, top, right, bottom } = pictureBox(laid);
  const { along, deep, guard } = EDGE_MM;
  const mean = (of: MeanIn, x0: number, y0: number, x1: number, y1: number) =>
    of(
      Math.round((x0 + leftMm) * pxPerMm),
      Math.round((y0 + topMm) * pxPerMm),
      Math.round((x1 + leftMm) * pxPerMm),
      Math.round((y1 + topMm) * pxPerMm),
    );
  const contrastAt = (x: number, y: number, isUpright: boolean) =>
    Math.min(
      ...tones.map((of) => {
        const [one, other] = isUpright
          ? [mean(of, x - deep, y - along / 2, x - guard, y + along / 2), mean(of, x + guard, y - along / 2, x + deep, y + along / 2)]
          : [mean(of, x - along / 2, y - deep, x + along / 2, y - guard), mean(of, x - along / 2, y + guard, x + along / 2, y + deep)];
        return Math.abs(one - other);
      }),
    );
  let best: (Place & { contrast: number }) | null = null;
  const look = (x: number, y: number, isUpright: boolean) => {
    const contrast = contrastAt(x, y, isUpright);
    if (!Number.isNaN(contrast) && (!best || contrast > best.contrast)) best = { x, y, contrast };
  };
  for (let share = 0.15; share <= 0.85; share += 0.02) {
    const [x, y] = [left + share * (right - left), top + share * (bottom - top)];
    for (const side of [left, right]) look(side, y, true);
    for (const side of [top, bottom]) look(x, side, false);
  }
  return best;
}

/** The lower of the two in the middle, where there are two. */
const middleOf = (values: readonly number[]): number =>
  values.some(Number.isNaN) ? Number.NaN : (values.toSorted((a, b) => a - b)[(values.length - 1) >> 1] as number);
