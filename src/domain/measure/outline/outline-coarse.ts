import { areaOf, cornersOf, distanceTo, endsOf, linesOf, lineThrough, opposite, quadOfLines, SIDES, type Side } from "../lines.ts";
import type { Point } from "../picture.ts";
import { type Component, componentsOf } from "../planes/components.ts";
import { enclosingQuad } from "./enclosing-quad.ts";
import type { GroundDistance } from "./ground.ts";
import { isUnionOf, partsOf, rectanglesApart } from "./outline-apart.ts";
import { LEAST_PAPER_LIGHTNESS } from "./paper-lightness.ts";
import { maskOf, plainColours } from "./plain-colour.ts";
import { confirmRectangle, NARROW_LOOK, outermost, overlap, type Rectangle } from "./rectangle.ts";
import type { ReducedCopy } from "./reduced-copy.ts";
import { type Region, regionOf, wholeCopy } from "./region.ts";
import { endsRunningOn } from "./runs-on.ts";
import { smoothGroundDistance } from "./smooth-ground.ts";

/**
 * Distances from the ground at which patches are cut out; what is kept is decided by the edges seen, not by these. The
 * middle ones come first: where two of them agree on rectangles beyond doubt, the rest would find the same again.
 */
const THRESHOLDS = [5.5, 3.5, 8.5, 2.2, 14] as const;
const SAME = 0.97;
const LEAST_AREA_SHARE = 0.025;
const LEAST_SOLIDITY = 0.85;
/** How unlike a plain colour a patch of it may be; see maskOf. */
const REACHES = [1, 1.8] as const;
/** An inner rectangle keeps off the sides of the outer one: what shares a side with it is a part of the picture. */
const LEAST_BORDER_PX = 2;
/** Keeps the blur of a rectangle's own edge out of the ring inside it. */
const INSET_PX = 2.5;

/**
 * Rectangles that lie on the ground seen along the frame. Where that ground leaves a doubt, because it has a pattern or
 * much the colour of the print, patches of one plain colour, such as a print's border, are looked at too.
 */
export function findRectangles(copy: ReducedCopy): Rectangle[] {
  const whole = regionOf(copy, wholeCopy(copy), 0);
  const isOfPattern = ({ quad, sides }: Rectangle) => {
    const ends = (side: Side) => (sides[side] === "frame" ? 0 : endsRunningOn(copy, quad, side, 0));
    const [level, upright] = [ends("top") + ends("bottom"), ends("left") + ends("right")];
    return level > 0 && upright > 0 && level + upright > MOST_ENDS_RUNNING_ON;
  };
  const { rectangles, unread } = unlikeGround(copy, whole, isBeyondDoubt);
  const asPatches = rectangles.filter((each) => !isOfPattern(each));
  const asOutermost = outermost(asPatches);
  const isSure = (found: readonly Rectangle[]) => found.length > 0 && found.every(isBeyondDoubt);
  if (isSure(asOutermost) && unread.length === 0) return asOutermost;
  const apart = rectanglesApart(copy, whole, leastPx(copy), (patch) => confirmed(copy, patch, NARROW_LOOK), isOfPattern);
  const parted = partsOf([...unread, ...asPatches.map(({ quad }) => cornersOf(quad))], apart.rectangles);
  if (parted.length > 0 && apart.isAll && apart.isDark) return outermost(apart.rectangles);
  const onGround = [...asPatches.filter((each) => !isUnionOf(each, parted)), ...parted];
  const found = outermost(onGround);
  if (isSure(found)) return found;
  const masks = plainColours(copy).flatMap((colour) => REACHES.map((reach) => maskOf(copy, colour, reach)));
  const plainPatches = (openPx: number) =>
    masks
      .flatMap((mask) => confirmedPatches(copy, mask, whole, openPx).rectangles)
      .filter((each) => (!isOnFrame(each) || isNearlyTheFrame(copy, each)) && !isOfPattern(each));
  const looked = [...onGround, ...plainPatches(1)];
  const kept = outermost(looked);
  if (kept.length > 0 && kept.every((each) => isBeyondDoubt(each) || isClear(each))) return kept;
  return outermost([...looked, ...plainPatches(Math.round(CHECK_SHARE * Math.min(copy.widthPx, copy.heightPx)))]);
}

/**
 * Lines of the ground may pass along a print, at both ends of two opposite sides; a check has them both ways, at four ends and more.
 * Own.
 */
const MOST_ENDS_RUNNING_ON = 3;

/** Half the width, as a share of the frame, of what is cut away at last: checks of a cloth that have the paper's colour and touch it. */
const CHECK_SHARE = 0.035;

/** A patch of the ground itself has its colour too, and ends at the frame. */
const isOnFrame = (each: Rectangle) => Object.values(each.sides).includes("frame");

/** But a file cropped nearly to the sheet shows a bright border that all but fills the frame. */
const isNearlyTheFrame = (copy: ReducedCopy, each: Rectangle) =>
  areaOf(cornersOf(each.quad)) > 0.8 * copy.widthPx * copy.heightPx &&
  each.margin.plain > 0.85 &&
  each.margin.lightness > LEAST_PAPER_LIGHTNESS &&
  each.margin.chroma < 20;

/** Rectangles that lie on what a larger one shows along its own sides: sheets on a board, the picture on a sheet. */
export function findRectanglesInside(copy: ReducedCopy, outer: Rectangle): Rectangle[] {
  const lines = linesOf(outer.quad);
  const seen = SIDES.filter((side) => outer.sides[side] !== "frame");
  const isApart = ({ quad }: Rectangle) =>
    seen.every((side) => cornersOf(quad).every((corner) => distanceTo(lines[side], corner) > LEAST_BORDER_PX));
  return outermost(unlikeGround(copy, regionOf(copy, outer.quad, INSET_PX), isClear).rectangles.filter(isApart));
}

/** Patches cut out of a region: those that are rectangles, and the hulls of those that are none. */
type Patches = { readonly rectangles: readonly Rectangle[]; readonly unread: readonly (readonly Point[])[] };

function unlikeGround(copy: ReducedCopy, region: Region, isSure: (each: Rectangle) => boolean): Patches {
  const distance = smoothGroundDistance(copy, region);
  if (!distance) return { rectangles: [], unread: [] };
  const found: Patches[] = [];
  for (const threshold of THRESHOLDS) {
    found.push(confirmedPatches(copy, maskAbove(distance, threshold), region, 3));
    if (found.length === 2 && isSettled(found[0]?.rectangles ?? [], found[1]?.rectangles ?? [], isSure)) break;
  }
  return { rectangles: found.flatMap(({ rectangles }) => rectangles), unread: found.flatMap(({ unread }) => unread) };
}

function maskAbove(distance: GroundDistance, threshold: number): Uint8Array {
  const mask = new Uint8Array(distance.length);
  for (let at = 0; at < mask.length; at++) mask[at] = (distance[at] as number) > threshold ? 1 : 0;
  return mask;
}

/** Both looks show the same rectangles, none of them in doubt. */
const isSettled = (first: readonly Rectangle[], second: readonly Rectangle[], isSure: (each: Rectangle) => boolean) =>
  first.length > 0 &&
  first.length === second.length &&
  first.every(
    (each) =>
      isSure(each) && second.some((again) => isSure(again) && overlap(each.quad, again.quad) * overlap(again.quad, each.quad) >= SAME),
  );

/** Smaller patches are not looked at, px of the copy. */
const leastPx = ({ widthPx, heightPx }: Pick<Region, "widthPx" | "heightPx">) => LEAST_AREA_SHARE * widthPx * heightPx;

function confirmedPatches(copy: ReducedCopy, mask: Uint8Array, region: Region, openPx: number): Patches {
  const patches = componentsOf(mask, region, openPx, leastPx(region)).map((patch) => ({
    hull: patch.hull,
    rectangle: confirmed(copy, patch),
  }));
  return {
    rectangles: patches.flatMap(({ rectangle }) => rectangle ?? []),
    unread: patches.flatMap(({ hull, rectangle }) => (rectangle ? [] : [hull])),
  };
}

function confirmed(copy: ReducedCopy, { hull, filledPx }: Component, look?: typeof NARROW_LOOK): Rectangle | null {
  const quad = filledPx < LEAST_SOLIDITY * areaOf(hull) ? null : enclosingQuad(hull);
  const rectangle = quad && confirmRectangle(copy, quad, look);
  return rectangle && (look ? rectangle : squarer(copy, rectangle));
}

/** How far inside its ends, px, a side that shows no edge is looked for again: a little more than what confirming looks over. */
const INSIDE_ENDS_PX = [0, 5, 10] as const;

/** A side of a patch that shows no edge may have cut a corner off, or swallowed some of the ground: it is looked for along the opposite one. */
function squarer(copy: ReducedCopy, rectangle: Rectangle): Rectangle {
  const weak = SIDES.find((side) => rectangle.sides[side] === "weak");
  if (!weak) return rectangle;
  const lines = linesOf(rectangle.quad);
  const { nx, ny } = lines[opposite(weak)];
  const tries = endsOf(rectangle.quad, weak).flatMap((end) =>
    INSIDE_ENDS_PX.flatMap((insidePx) => {
      const at = { x: end.x - nx * insidePx, y: end.y - ny * insidePx };
      const quad = quadOfLines({ ...lines, [weak]: lineThrough(at, { x: at.x - ny, y: at.y + nx }) });
      const found = quad && confirmRectangle(copy, quad);
      return found && !Object.values(found.sides).includes("weak") ? [found] : [];
    }),
  );
  const worth = (each: Rectangle) => each.support + each.margin.plain;
  return tries.reduce((best, each) => (worth(each) > worth(best) ? each : best), rectangle);
}

/** A picture stands out from its border on all sides. */
const isClear = (each: Rectangle) => each.support > 3.7 && each.around.plain > 0.9;
/** A sheet, or a board, shows a plain margin too: on a white ground the picture alone is as clear, and not enough. */
const isBeyondDoubt = (each: Rectangle) => each.support > 3.7 && each.margin.plain > 0.9;
