import { type Border, borderOf } from "../border/border.ts";
import { isLossyFile } from "../file/lossy-kinds.ts";
import { distanceTo, endsOf, SIDES } from "../lines.ts";
import { median } from "../numbers/robust.ts";
import type { Picture, Quad } from "../picture.ts";
import type { MeasureContext, Outline, Reading } from "../reading.ts";
import { PATCH_PX, readNoisePatch } from "./noise-patch.ts";

/**
 * Noise of the capture: standard deviation of L* in patches of 64 × 64 px of the plain border after a plane is taken
 * out of each (uneven light is not noise); the median patch. Paper texture counts with it, so the detail parts them: noise
 * from second differences along rows and columns, √(mean square / 6), the lower of both, which texture coarser than a few
 * pixels does not raise; and texture as what is left, √(SD² - noise²). Compression and smoothing make noise coarse too,
 * so that some of what is called texture may be noise. ISO 15739 parts them by several frames, which a print's capture
 * has not; its fixed pattern noise stays within the value.
 *
 * Specks are left out (noise-patch.ts). Of a border that is clipped in part, the half darker than the middle is read, which clipping does not reach.
 * A lossy file throws fine noise away: at least so much.
 *
 * Needs: a border that holds one such patch, clipped in no more than a third.
 * Not comparable when: captures have very different sampling, since texture then falls on other sizes.
 * Source: ISO 15739 for the quantity; 36 CFR 1236.50, table 2, for the warning below 0.25.
 */
export function noise(picture: Picture, outline: Outline | null, context: MeasureContext): Reading[] {
  const name = "noiseDeltaL";
  if (!outline?.image) return [{ name, absent: outline ? "no plain border was seen" : "the print was not found in the frame" }];
  const border = borderOf(outline, context);
  const patches = border ? placesOf(border, outline.image, picture) : [];
  if (patches.length === 0)
    return [{ name, absent: `the border holds no plain patch of ${PATCH_PX} × ${PATCH_PX} px; finer sampling would` }];
  const read = patches.flatMap((patch) => readNoisePatch(picture, patch.left, patch.top) ?? []);
  if (read.length < patches.length / 2)
    return [{ name, absent: "the border is clipped to white, or covered with specks, which hides its noise" }];
  const value = median(read.map((patch) => patch.deviation));
  const withoutTexture = median(read.map((patch) => patch.fromSecondDifferences));
  const isClipped = read.filter((patch) => patch.isClipped).length > read.length / 2;
  const isLossy = isLossyFile(context);
  const notes = [
    ...(value < SMOOTHED_BELOW ? ["So little noise suggests that software smoothed the capture; fine detail may have gone with it."] : []),
    ...(isLossy ? ["The file's compression throws fine noise away, so that the capture had at least so much."] : []),
    ...(isClipped ? ["Read from its darker half, since the brighter one is clipped to white."] : []),
  ];
  return [
    {
      name,
      value,
      reliability: read.length >= 4 && !isLossy && !isClipped ? "firm" : "fair",
      ...(isLossy && { bound: "lower" as const }),
      ...(notes.length > 0 && { note: notes.join(" ") }),
      detail: {
        patches: read.length,
        lowest: Math.min(...read.map((patch) => patch.deviation)),
        highest: Math.max(...read.map((patch) => patch.deviation)),
        withoutTexture: isClipped ? null : withoutTexture,
        texture: isClipped ? null : Math.sqrt(Math.max(0, value ** 2 - withoutTexture ** 2)),
      },
    },
  ];
}

const MOST_PATCHES = 60;
const SMOOTHED_BELOW = 0.25;

/** Patches that lie wholly on the border, in lanes along each side. */
function placesOf(border: Border, image: Quad, { widthPx, heightPx }: Picture): { left: number; top: number }[] {
  const places: { left: number; top: number }[] = [];
  const half = (PATCH_PX - 1) / 2;
  for (const side of border.sides) {
    const [from, to] = endsOf(image, side);
    const length = Math.hypot(to.x - from.x, to.y - from.y);
    const outward = { x: -border.image[side].nx, y: -border.image[side].ny };
    const along = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
    const tilt = Math.abs(along.x) + Math.abs(along.y);
    // a square of the frame reaches this far across a side that leans
    const reach = half * tilt;
    const widthHere = Math.min(distanceTo(border.sheet[side], from), distanceTo(border.sheet[side], to));
    for (let across = border.guardPx + reach; across + reach + border.guardPx <= widthHere; across += 2 * reach) {
      for (let s = reach; s + reach <= length; s += 2 * reach) {
        const left = Math.round(from.x + along.x * s + outward.x * across - half);
        const top = Math.round(from.y + along.y * s + outward.y * across - half);
        if (left < 0 || top < 0 || left + PATCH_PX > widthPx || top + PATCH_PX > heightPx) continue;
        if (isPlain(border, left, top)) places.push({ left, top });
      }
    }
  }
  const step = Math.max(1, places.length / MOST_PATCHES);
  return Array.from(
    { length: Math.floor(places.length / step) },
    (_, index) => places[Math.floor(index * step)] as { left: number; top: number },
  );
}

function isPlain({ sheet, image, guardPx }: Border, left: number, top: number): boolean {
  const corners = [0, 1, 2, 3].map((k) => ({ x: left + (k % 2) * (PATCH_PX - 1), y: top + Math.floor(k / 2) * (PATCH_PX - 1) }));
  const onSheet = SIDES.every((side) => corners.every((corner) => distanceTo(sheet[side], corner) >= guardPx));
  return onSheet && SIDES.some((side) => corners.every((corner) => distanceTo(image[side], corner) <= -guardPx + 1));
}
