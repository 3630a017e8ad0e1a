import { type Border, borderOf } from "./border.ts";
import { type BorderPatches, borderPatches } from "./border-patches.ts";
import { lightnessOf } from "./lab.ts";
import { fitLight, type LightSurface } from "./light-surface.ts";
import { grown, withoutSpecks } from "./mask.ts";
import type { Picture } from "./picture.ts";
import type { MeasureContext, Outline } from "./reading.ts";
import { robustSpread } from "./robust.ts";

/** The light on the plain border, and where the border is brighter than that light would make it. */
export type BorderShine = {
  readonly border: Border;
  readonly patches: BorderPatches;
  /** luminance of plain paper without shine, over the whole sheet (extrapolated over the picture) */
  readonly light: LightSurface;
  /** 1 where the border shines, on the grid of the patches */
  readonly shining: Uint8Array;
  /** largest ln of luminance over light in a shining patch; 0 where nothing shines */
  readonly strongest: number;
  /** largest excess of L* in a shining patch; 0 where nothing shines */
  readonly worstLightness: number;
};

/** Looks at the border once, for all that is read from its light; or says why that cannot be done. */
export function borderShine(picture: Picture, outline: Outline | null, context: MeasureContext): BorderShine | string {
  if (!outline) return "the print was not found in the frame";
  const border = borderOf(outline, context);
  if (!border) return "no plain border of at least 2 mm was seen";
  const patches = borderPatches(picture, outline, border);
  if (patches.cell.length < FEWEST_PATCHES) return "too little of the border could be read";
  if (patches.clippedShare > 0.5) return "most of the border is clipped to white, so glare on it cannot be told from paper";
  const found = shiningPatches(patches);
  if (!found) return "the border is too small to tell glare from uneven light";
  return { border, patches, light: found.light, shining: found.shining, ...worstOf(patches, found) };
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

/** `excess`: of each patch, ln of luminance over light. */
type Found = Pick<BorderShine, "light" | "shining"> & { readonly excess: Float32Array };

/** A first look says which patches shine; further looks leave them and their skirts out when they fit the light. */
function shiningPatches({ u, v, luminance, cell, columns, rows }: BorderPatches): Found | null {
  let trusted = Int32Array.from({ length: cell.length }, (_, index) => index);
  let found: Found | null = null;
  for (let look = 0; look < LOOKS; look++) {
    const light = fitLight(u, v, luminance, trusted);
    if (!light) break;
    const excess = light.residuals;
    const ofTrusted = new Float32Array(trusted.length);
    for (let k = 0; k < trusted.length; k++) ofTrusted[k] = excess[trusted[k] as number] as number;
    const limit = Math.max(Math.log(1 + LEAST_EXCESS), 4 * robustSpread(ofTrusted));
    const mask = new Uint8Array(columns * rows);
    for (let index = 0; index < cell.length; index++) if ((excess[index] as number) > limit) mask[cell[index] as number] = 1;
    const shining = withoutSpecks(mask, columns, rows, LEAST_SPECK);
    found = { light, shining, excess };
    const doubtful = grown(shining, columns, rows, KEEP_AWAY);
    const rest = new Int32Array(cell.length);
    let count = 0;
    for (let index = 0; index < cell.length; index++) if (doubtful[cell[index] as number] === 0) rest[count++] = index;
    if (count < LEAST_TRUSTED * cell.length) break;
    trusted = rest.subarray(0, count);
  }
  return found;
}

function worstOf({ luminance, cell }: BorderPatches, { shining, excess: excesses }: Found) {
  let strongest = 0;
  let worstLightness = 0;
  luminance.forEach((value, index) => {
    if (shining[cell[index] as number] !== 1) return;
    const excess = excesses[index] as number;
    strongest = Math.max(strongest, excess);
    worstLightness = Math.max(worstLightness, lightnessOf(value) - lightnessOf(value / Math.exp(excess)));
  });
  return { strongest, worstLightness };
}
