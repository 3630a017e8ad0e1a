import { borderOf } from "./border.ts";
import { type BorderPatches, borderPatches } from "./border-patches.ts";
import { fitLight } from "./light-surface.ts";
import { boxesOf, withoutSpecks } from "./mask.ts";
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
  const name = "border-glare";
  if (!outline) return [{ name, absent: "the print was not found in the frame" }];
  const border = borderOf(outline, context);
  if (!border) return [{ name, absent: "no plain border of at least 2 mm was seen" }];
  const patches = borderPatches(picture, outline, border);
  if (patches.cell.length < FEWEST_PATCHES) return [{ name, absent: "too little of the border could be read" }];
  if (patches.clippedShare > 0.5)
    return [{ name, absent: "most of the border is clipped to white, so glare on it cannot be told from paper" }];
  const light = fitLight(patches.u, patches.v, patches.luminance);
  if (!light) return [{ name, absent: "the border is too small to tell glare from uneven light" }];
  const limit = Math.max(Math.log(1 + LEAST_EXCESS), 4 * robustSpread(light.residuals));
  const mask = new Uint8Array(patches.columns * patches.rows);
  light.residuals.forEach((residual, index) => {
    if (residual > limit) mask[patches.cell[index] as number] = 1;
  });
  const shining = withoutSpecks(mask, patches.columns, patches.rows, LEAST_SPECK);
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
        strongestPercent: 100 * (Math.exp(strongest(patches, light.residuals, shining)) - 1),
      },
    },
  ];
}

const FEWEST_PATCHES = 100;
const LEAST_EXCESS = 0.03;
/** Patches that must touch to count: about 0.8 mm² of a small print. */
const LEAST_SPECK = 9;
const MOST_PLACES = 12;

function strongest(patches: BorderPatches, residuals: Float32Array, shining: Uint8Array): number {
  return residuals.reduce((most, residual, index) => (shining[patches.cell[index] as number] === 1 ? Math.max(most, residual) : most), 0);
}
