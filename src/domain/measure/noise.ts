import { type Border, borderOf } from "./border.ts";
import { lightnessOf } from "./lab.ts";
import { distanceTo, endsOf, SIDES } from "./lines.ts";
import { luminanceAt, type Picture, type Quad } from "./picture.ts";
import type { MeasureContext, Outline, Reading } from "./reading.ts";
import { median } from "./robust.ts";

/**
 * Noise of the capture: standard deviation of L* in patches of 64 × 64 px of the plain border after a plane is taken
 * out of each (uneven light is not noise); the median patch. Paper texture counts with it, so the detail parts them: noise
 * from second differences along rows and columns, √(mean square / 6), the lower of both, which texture coarser than a few
 * pixels does not raise; and texture as what is left, √(SD² - noise²). Compression and smoothing make noise coarse too,
 * so that some of what is called texture may be noise. ISO 15739 parts them by several frames, which a print's capture
 * has not; its fixed pattern noise stays within the value.
 *
 * Needs: a border that holds one such patch, not clipped.
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
  const read = patches.flatMap((patch) => readPatch(picture, patch.left, patch.top) ?? []);
  if (read.length < patches.length / 2) return [{ name, absent: "the border is clipped to white, which hides its noise" }];
  const value = median(read.map((patch) => patch.deviation));
  const withoutTexture = median(read.map((patch) => patch.fromSecondDifferences));
  return [
    {
      name,
      value,
      reliability: read.length >= 4 ? "firm" : "fair",
      ...(value < SMOOTHED_BELOW && {
        note: "So little noise suggests that software smoothed the capture; fine detail may have gone with it.",
      }),
      detail: {
        patches: read.length,
        lowest: Math.min(...read.map((patch) => patch.deviation)),
        highest: Math.max(...read.map((patch) => patch.deviation)),
        withoutTexture,
        texture: Math.sqrt(Math.max(0, value ** 2 - withoutTexture ** 2)),
      },
    },
  ];
}

const PATCH_PX = 64;
const MOST_PATCHES = 60;
const SMOOTHED_BELOW = 0.25;
const MOST_CLIPPED = 0.01;

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

/** Null when the patch is clipped. */
function readPatch(picture: Picture, left: number, top: number): { deviation: number; fromSecondDifferences: number } | null {
  const values = new Float64Array(PATCH_PX * PATCH_PX);
  let clipped = 0;
  for (let y = 0; y < PATCH_PX; y++) {
    for (let x = 0; x < PATCH_PX; x++) {
      const at = ((top + y) * picture.widthPx + left + x) * 3;
      for (let channel = 0; channel < 3; channel++) if (picture.codes[at + channel] === picture.maxCode) clipped++;
      values[y * PATCH_PX + x] = lightnessOf(luminanceAt(picture, left + x, top + y));
    }
  }
  if (clipped > MOST_CLIPPED * 3 * values.length) return null;
  return { deviation: aroundPlane(values), fromSecondDifferences: secondDifferences(values) };
}

function aroundPlane(values: Float64Array): number {
  const middle = (PATCH_PX - 1) / 2;
  const count = values.length;
  let sum = 0;
  let alongX = 0;
  let alongY = 0;
  for (let at = 0; at < count; at++) {
    const value = values[at] as number;
    sum += value;
    alongX += value * ((at % PATCH_PX) - middle);
    alongY += value * (Math.floor(at / PATCH_PX) - middle);
  }
  // for a square of n × n places the squares of one coordinate add up to n² (n² - 1) / 12
  const squares = (count * (PATCH_PX ** 2 - 1)) / 12;
  let residuals = 0;
  for (let at = 0; at < count; at++) {
    const plane = sum / count + (alongX / squares) * ((at % PATCH_PX) - middle) + (alongY / squares) * (Math.floor(at / PATCH_PX) - middle);
    residuals += ((values[at] as number) - plane) ** 2;
  }
  return Math.sqrt(residuals / (count - 3));
}

function secondDifferences(values: Float64Array): number {
  let alongRows = 0;
  let alongColumns = 0;
  for (let line = 0; line < PATCH_PX; line++) {
    for (let k = 1; k < PATCH_PX - 1; k++) {
      alongRows += secondDifference(values, line * PATCH_PX + k, 1) ** 2;
      alongColumns += secondDifference(values, k * PATCH_PX + line, PATCH_PX) ** 2;
    }
  }
  return Math.sqrt(Math.min(alongRows, alongColumns) / (PATCH_PX * (PATCH_PX - 2)) / 6);
}

const secondDifference = (values: Float64Array, at: number, step: number) =>
  (values[at - step] as number) - 2 * (values[at] as number) + (values[at + step] as number);
