import { centreOf } from "../lines.ts";
import { median } from "../numbers/robust.ts";
import type { Point } from "../picture.ts";
import { type Component, componentsOf } from "../planes/components.ts";
import { LEAST_PAPER_LIGHTNESS } from "./paper-lightness.ts";
import { overlap, type Rectangle } from "./rectangle.ts";
import type { ReducedCopy } from "./reduced-copy.ts";
import type { Region } from "./region.ts";
import { smoothGroundDistance } from "./smooth-ground.ts";

/** Distance of colours from the ground, in its standard deviations, from which a pixel is no longer ground; one of those that patches are cut out at. */
const UNLIKE = 5.5;
const OPEN_PX = 1;
/** Along so much of the frame a plain ground is seen, whatever lies against the rest of it. Own. */
const PLAIN_SHARE = 0.8;
/** So much of a rectangle lies in another that is the union of several. Own. */
const WITHIN = 0.9;

/** Rectangles that lie apart on one ground, however narrowly. */
export type Apart = {
  readonly rectangles: readonly Rectangle[];
  /** nothing large lies there that is no rectangle */
  readonly isAll: boolean;
  /** the ground is darker than paper, so that no border is lost in it */
  readonly isDark: boolean;
};

/**
 * Prints on one bed may lie so near to each other that texture, which looks 2 px far, and the closing of gaps make one
 * patch of them. By their colours alone, with no gap closed, a strip of the ground one pixel of the copy wide parts them:
 * half a millimetre on a whole bed. `confirm` tells which patches are rectangles. On a ground that is not plain those of which `isOfPattern` holds are none:
 * on a plain one what runs on beyond a rectangle is its neighbour, laid in line with it.
 */
export function rectanglesApart(
  copy: ReducedCopy,
  region: Region,
  leastPx: number,
  confirm: (patch: Component) => Rectangle | null,
  isOfPattern: (each: Rectangle) => boolean,
): Apart {
  const distance = smoothGroundDistance({ ...copy, texture: new Float32Array(copy.texture.length) }, region);
  if (!distance) return { rectangles: [], isAll: false, isDark: false };
  const mask = Uint8Array.from(distance, (each) => (each > UNLIKE ? 1 : 0));
  const isPlain = region.ring.filter((at) => (mask[at] as number) === 0).length > PLAIN_SHARE * region.ring.length;
  const patches = componentsOf(mask, region, OPEN_PX, leastPx, 0).map((patch) => {
    const rectangle = confirm(patch);
    return rectangle && (isPlain || !isOfPattern(rectangle)) ? rectangle : null;
  });
  const rectangles = patches.filter((each) => each !== null);
  const ground = median(Float32Array.from(region.ring, (at) => copy.lightness[at] as number));
  return { rectangles, isAll: rectangles.length === patches.length, isDark: ground < LEAST_PAPER_LIGHTNESS };
}

/** Those that lie with others of them in one patch, by its outermost points: what was taken for one is several. */
export function partsOf(patches: readonly (readonly Point[])[], apart: readonly Rectangle[]): Rectangle[] {
  const isWithin = (patch: readonly Point[], { quad }: Rectangle) => {
    const { x, y } = centreOf(quad);
    const [xs, ys] = [patch.map((point) => point.x), patch.map((point) => point.y)];
    return x > Math.min(...xs) && x < Math.max(...xs) && y > Math.min(...ys) && y < Math.max(...ys);
  };
  const several = patches.filter((patch) => apart.filter((each) => isWithin(patch, each)).length > 1);
  return apart.filter((each) => several.some((patch) => isWithin(patch, each)));
}

/** Several rectangles that lie apart were taken for one. */
export const isUnionOf = (union: Rectangle, apart: readonly Rectangle[]): boolean =>
  apart.filter((each) => overlap(each.quad, union.quad) > WITHIN && overlap(union.quad, each.quad) < WITHIN).length > 1;
