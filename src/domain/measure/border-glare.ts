import { borderOf } from "./border.ts";
import { type BorderPatches, borderPatches } from "./border-patches.ts";
import { fitLight } from "./light-surface.ts";
import { boxesOf, grown, withoutSpecks } from "./mask.ts";
import type { Picture } from "./picture.ts";
import type { MeasureContext, Outline, Reading } from "./reading.ts";
import { robustSpread } from "./robust.ts";
import { sizeAsSeen } from "./size-as-seen.ts";

/**
 * Share of the plain border that shines, in percent: patches whose luminance lies more than 3 % (and more than four
 * times their own scatter) above the smooth light fitted to the whole border, specks left out. Certain, since the
 * border is known to be plain; but a broad, smooth shine passes for uneven light, so the share is "at least".
 *
 * Needs: a border of 2 mm on one side or more. Absent when most of the border is clipped.
 * Source: common practice, no source.
 */
export function borderGlare(picture: Picture, outline: Outline | null, context: MeasureContext): Reading[] {
  const name = "borderGlarePercent";
  if (!outline) return [{ name, absent: "the print was not found in the frame" }];
  const border = borderOf(outline, context);
  if (!border) return [{ name, absent: "no plain border of at least 2 mm was seen" }];
  const patches = borderPatches(picture, outline, border);
  if (patches.cell.length < FEWEST_PATCHES) return [{ name, absent: "too little of the border could be read" }];
  if (patches.clippedShare > 0.5)
    return [{ name, absent: "most of the border is clipped to white, so glare on it cannot be told from paper" }];
  const found = shiningPatches(patches);
  if (!found) return [{ name, absent: "the border is too small to tell glare from uneven light" }];
  const { shining, residuals } = found;
  const count = shining.reduce((sum, value) => sum + value, 0);
  return [
    {
      name,
      value: (100 * count) / patches.cell.length,
      reliability: border.sides.length >= 3 ? "firm" : "fair",
      bound: "lower",
      ...(border.sides.length < 4 && { note: `Read on ${border.sides.length} of 4 sides, where the border is wide enough.` }),
      detail: {
        of: "sheet",
        places: boxesOf(shining, patches.columns, patches.rows, sizeAsSeen(outline.sheet, outline.image, context).sheet).slice(
          0,
          MOST_PLACES,
        ),
        strongestPercent: 100 * (Math.exp(strongest(patches, residuals, shining)) - 1),
      },
    },
  ];
}

const LOOKS = 3;
/** Round a shining patch its faint skirts are left out of the fit too: about 2 mm of a small print. */
const KEEP_AWAY = 5;
/** Share of the border that must be left to fit the light to. */
const LEAST_TRUSTED = 0.5;
const FEWEST_PATCHES = 100;
const LEAST_EXCESS = 0.03;
/** Patches that must touch to count: about 1 mm² of a small print. */
const LEAST_SPECK = 6;
const MOST_PLACES = 12;

/** A first look says which patches shine; further looks leave them and their skirts out when they fit the light. */
function shiningPatches({ u, v, luminance, cell, columns, rows }: BorderPatches): { shining: Uint8Array; residuals: Float32Array } | null {
  const all = Int32Array.from(cell.keys());
  let trusted = all;
  let found: { shining: Uint8Array; residuals: Float32Array } | null = null;
  for (let look = 0; look < LOOKS; look++) {
    const light = fitLight(u, v, luminance, trusted);
    if (!light) break;
    const { residuals } = light;
    const limit = Math.max(Math.log(1 + LEAST_EXCESS), 4 * robustSpread(Float32Array.from(trusted, (index) => residuals[index] as number)));
    const mask = new Uint8Array(columns * rows);
    for (const index of all) if ((residuals[index] as number) > limit) mask[cell[index] as number] = 1;
    const shining = withoutSpecks(mask, columns, rows, LEAST_SPECK);
    found = { shining, residuals };
    const doubtful = grown(shining, columns, rows, KEEP_AWAY);
    const rest = all.filter((index) => doubtful[cell[index] as number] === 0);
    if (rest.length < LEAST_TRUSTED * all.length) break;
    trusted = rest;
  }
  return found;
}

function strongest(patches: BorderPatches, residuals: Float32Array, shining: Uint8Array): number {
  return residuals.reduce((most, residual, index) => (shining[patches.cell[index] as number] === 1 ? Math.max(most, residual) : most), 0);
}
