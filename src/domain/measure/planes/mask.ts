import type { SizeMm } from "../size-as-seen.ts";
import { reshaped } from "./reshaped.ts";

/** A box round a connected patch of a mask: shares of the whole, and mm where the size is known. */
export type PlaceBox = {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** share of the whole that the patch itself covers */
  readonly share: number;
  readonly mm: { readonly left: number; readonly top: number; readonly width: number; readonly height: number } | null;
};

/** What squares of 2 × `times` + 1 px that lie wholly in the mask (1 = in) cover: thin and single places go. */
export function opened(mask: Uint8Array, columns: number, rows: number, times = 1): Uint8Array {
  return reshaped(mask, columns, rows, [-times, times]);
}

/** The mask and all that lies within `reach` places of it. */
export function grown(mask: Uint8Array, columns: number, rows: number, reach: number): Uint8Array {
  return reshaped(mask, columns, rows, [reach]);
}

/** The mask without patches of fewer than `least` pixels. */
export function withoutSpecks(mask: Uint8Array, columns: number, rows: number, least: number): Uint8Array {
  const kept = new Uint8Array(mask.length);
  for (const patch of patchesOf(mask, columns, rows)) if (patch.length >= least) for (const at of patch) kept[at] = 1;
  return kept;
}

/** Boxes of the patches, largest patch first. */
export function boxesOf(mask: Uint8Array, columns: number, rows: number, size: SizeMm | null): PlaceBox[] {
  return patchesOf(mask, columns, rows)
    .sort((a, b) => b.length - a.length)
    .map((patch) => {
      let [left, right, top, bottom] = [columns, -1, rows, -1];
      for (const at of patch) {
        const y = Math.floor(at / columns);
        const x = at - y * columns;
        [left, right, top, bottom] = [Math.min(left, x), Math.max(right, x), Math.min(top, y), Math.max(bottom, y)];
      }
      const box = { left: left / columns, top: top / rows, width: (right - left + 1) / columns, height: (bottom - top + 1) / rows };
      const mm = size && {
        left: box.left * size.widthMm,
        top: box.top * size.heightMm,
        width: box.width * size.widthMm,
        height: box.height * size.heightMm,
      };
      return { ...box, share: patch.length / mask.length, mm };
    });
}

/** Connected patches (sides and corners touch) as lists of pixels. */
export function patchesOf(mask: Uint8Array, columns: number, rows: number): number[][] {
  const left = mask.slice();
  const patches: number[][] = [];
  for (let start = 0; start < left.length; start++) {
    if (left[start] !== 1) continue;
    patches.push(takenPatch(left, columns, rows, start));
  }
  return patches;
}

/** Takes the patch of one value round a pixel out of the plane, which holds 0 there afterwards; its pixels, the first one first. */
export function takenPatch(left: Uint8Array | Int8Array, columns: number, rows: number, start: number): number[] {
  const value = left[start] as number;
  const patch = [start];
  left[start] = 0;
  for (let next = 0; next < patch.length; next++) {
    const at = patch[next] as number;
    const y = Math.floor(at / columns);
    const x = at - y * columns;
    for (let j = Math.max(0, y - 1); j <= Math.min(rows - 1, y + 1); j++) {
      for (let i = Math.max(0, x - 1); i <= Math.min(columns - 1, x + 1); i++) {
        const neighbour = j * columns + i;
        if (left[neighbour] !== value) continue;
        left[neighbour] = 0;
        patch.push(neighbour);
      }
    }
  }
  return patch;
}
