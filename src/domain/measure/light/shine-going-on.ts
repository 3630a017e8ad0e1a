import { homographyFromMm, project } from "../homography.ts";
import { median } from "../numbers/robust.ts";
import { opened, patchesOf } from "../planes/mask.ts";
import type { Outline } from "../reading.ts";
import type { BorderShine } from "./border-shine.ts";
import type { PicturePatches } from "./picture-patches.ts";

/** Patches along the rim of the picture; and share of those of an area that must have shine beside them. */
const RIM = 3;
export const LEAST_GOING_ON = 0.5;
/** Its darkest channel has at least this share of the light that is added to the paper beside it: light that is not quite white has less in one. */
const LEAST_OF_LIGHT = 0.75;
/** A larger share of the picture as bright as that says nothing of a reflection. */
const MOST_OF_PICTURE = 0.35;
/** Beyond its end the darkest channel is lower by so much of that light; and that must be so along most of its end. */
const LEAST_DROP = 0.4;
const LEAST_ENDING = 0.75;
const BEYOND = 3;
/** Light added to the paper, linear, below which the print's own tones drown it. */
const LEAST_LIGHT = 0.05;

export const isOnRim = (at: number, columns: number, rows: number): boolean =>
  at % columns < RIM || at % columns >= columns - RIM || at < RIM * columns || at >= (rows - RIM) * columns;

/** Of each patch of the rim with shine on the border across the gap that is not read, the light that is added there; 0 elsewhere. */
export function besideShine(
  { columns, rows, patchAt, placeOf }: PicturePatches,
  { border, patches, shining, light }: Pick<BorderShine, "border" | "patches" | "shining" | "light">,
  { sheet }: Outline,
): Float32Array {
  const toFrame = homographyFromMm(patches.columns, patches.rows, sheet);
  const corner = placeOf(0);
  const next = placeOf(1);
  const reachPx = 3 * border.guardPx + 2 * Math.hypot(next.x - corner.x, next.y - corner.y);
  const beside = new Float32Array(columns * rows);
  patches.cell.forEach((cell, index) => {
    if (shining[cell] !== 1) return;
    const added = (patches.luminance[index] as number) * (1 - Math.exp(-(light.residuals[index] as number)));
    const place = project(toFrame, (cell % patches.columns) + 0.5, Math.floor(cell / patches.columns) + 0.5);
    const patch = patchAt(place);
    for (const inwards of [0, 1, 2]) {
      const column = Math.min(columns - 1 - inwards, Math.max(inwards, Math.floor(patch.x)));
      const row = Math.min(rows - 1 - inwards, Math.max(inwards, Math.floor(patch.y)));
      const at = row * columns + column;
      const there = placeOf(at);
      if (Math.hypot(there.x - place.x, there.y - place.y) <= reachPx) beside[at] = Math.max(beside[at] as number, added);
    }
  });
  return beside;
}

/**
 * Patches of the picture that a reflection on the border goes on over: added light is in all channels, so that none of them is darker than most of what is
 * added to the paper, and where the reflection ends the darkest channel falls. Nothing where the picture itself is as bright.
 * Source: own.
 */
export function goingOn({ columns, rows, darkest }: PicturePatches, beside: Float32Array): number[] {
  const lit = beside.filter((light) => light > 0);
  const light = lit.length > 0 ? median(lit) : 0;
  if (light < LEAST_LIGHT) return [];
  const asBright = Uint8Array.from(darkest, (value) => (value >= LEAST_OF_LIGHT * light ? 1 : 0));
  if (asBright.reduce((sum, value) => sum + value, 0) > MOST_OF_PICTURE * asBright.length) return [];
  return patchesOf(opened(asBright, columns, rows), columns, rows).flatMap((patch) => {
    const rim = patch.filter((at) => isOnRim(at, columns, rows));
    const goesOn = rim.length > 0 && rim.filter((at) => (beside[at] as number) > 0).length >= LEAST_GOING_ON * rim.length;
    return goesOn && endsIn(patch, darkest, columns, rows, light) ? patch : [];
  });
}

/** Whether most places a few patches beyond the end of an area are darker by much of that light. */
function endsIn(patch: readonly number[], darkest: Float32Array, columns: number, rows: number, light: number): boolean {
  const own = new Set(patch);
  const inside = median(Float32Array.from(patch, (at) => darkest[at] as number));
  let [ends, dark] = [0, 0];
  for (const at of patch) {
    const y = Math.floor(at / columns);
    const x = at - y * columns;
    for (const [dx, dy] of [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ] as const) {
      if (own.has(at + dx + dy * columns)) continue;
      const [column, row] = [x + BEYOND * dx, y + BEYOND * dy];
      if (column < 0 || row < 0 || column >= columns || row >= rows || own.has(row * columns + column)) continue;
      ends++;
      if (inside - (darkest[row * columns + column] as number) >= LEAST_DROP * light) dark++;
    }
  }
  return ends > 0 && dark >= LEAST_ENDING * ends;
}
