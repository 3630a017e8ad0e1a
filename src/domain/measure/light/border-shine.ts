import { type Border, borderOf } from "../border/border.ts";
import { type BorderPatches, borderPatches, joined } from "../border/border-patches.ts";
import { lightnessOf } from "../colour/lab.ts";
import type { Side } from "../lines.ts";
import { fitLight, type LightSurface } from "../numbers/light-surface.ts";
import { robustSpread } from "../numbers/robust.ts";
import type { Picture } from "../picture.ts";
import { grown, withoutSpecks } from "../planes/mask.ts";
import type { MeasureContext, Outline } from "../reading.ts";
import { type HiddenShine, shineOfHiddenSides } from "./hidden-sides.ts";
import { isShineNotShadow } from "./shine-or-shadow.ts";
import { type TwoLevels, twoLevels } from "./two-levels.ts";

/** The light on the plain border, and where the border is brighter than that light would make it. */
export type BorderShine = {
  readonly border: Border;
  /** sides where shine hides the border */
  readonly hidden: readonly Side[];
  /** of the sides where a border was told apart, then of those where shine hides it */
  readonly patches: BorderPatches;
  /** luminance of plain paper without shine, over the whole sheet (extrapolated over the picture) */
  readonly light: LightSurface;
  /** 1 where the border shines, on the grid of the patches */
  readonly shining: Uint8Array;
  /** patches that neither shine nor lie beside what does, by which the light is told; in the order of the patches */
  readonly plain: Int32Array;
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
  const levels = twoLevels(patches);
  const told = (each: Found) => shineOf(border, patches, each, shineOfHiddenSides(picture, outline, { border, patches }, each.light));
  if (!levels || countOf(levels.brighter) < countOf(found.shining) + LEAST_MORE * patches.cell.length) return told(found);
  const ofLower = foundOf(patches, levels);
  const isShine = isShineNotShadow(picture, outline, { border, patches, ...ofLower });
  if (isShine === null) return TWO_LEVELS;
  return told(isShine ? ofLower : withoutLevel(found, levels.brighter, patches));
}

/** Where the darker level lies in shadow, what is of the brighter one is paper in its own light. */
function withoutLevel(found: Found, brighter: Uint8Array, patches: BorderPatches): Found {
  const shining = found.shining.map((value, at) => (brighter[at] === 1 ? 0 : value));
  return { ...found, shining, plain: plainOf(patches, shining) };
}

export const ANOTHER_WOULD = "another capture of the print would";
const TWO_LEVELS = `part of the border is brighter than the rest by a step, and whether it shines or the rest lies in shadow the picture does not tell; ${ANOTHER_WOULD}`;
/** Share of the border by which more must be of the brighter of two levels than shines above the light of most of it. */
const LEAST_MORE = 0.01;

const countOf = (mask: Uint8Array) => mask.reduce((sum, value) => sum + value, 0);

/** With the sides that are hidden by shine, where there are such. */
function shineOf(border: Border, patches: BorderPatches, found: Found, hidden: HiddenShine | null): BorderShine {
  if (!hidden)
    return { border, hidden: [], patches, light: found.light, shining: found.shining, plain: found.plain, ...worstOf(patches, found) };
  const all = joined(patches, hidden.patches);
  const excess = Float32Array.from([...found.excess, ...hidden.excess]);
  const shining = found.shining.map((value, at) => value | (hidden.shining[at] as number));
  const light = { at: found.light.at, residuals: excess };
  return { border, hidden: hidden.sides, patches: all, light, shining, plain: found.plain, ...worstOf(all, { ...found, shining, excess }) };
}

/** The darker level as the light of plain paper. */
function foundOf(patches: BorderPatches, { at, excess, brighter }: TwoLevels): Found {
  return { light: { at, residuals: excess }, shining: brighter, plain: plainOf(patches, brighter), excess };
}

/** Patches that neither shine nor lie beside what does. */
function plainOf({ cell, columns, rows }: BorderPatches, shining: Uint8Array): Int32Array {
  const doubtful = grown(shining, columns, rows, KEEP_AWAY);
  const plain = new Int32Array(cell.length);
  let count = 0;
  for (let index = 0; index < cell.length; index++) if (doubtful[cell[index] as number] === 0) plain[count++] = index;
  return plain.slice(0, count);
}

/** Share of the border that may be clipped where its light or colour is read. */
export const MOST_CLIPPED = 0.02;

/** Says so where less than half of the border neither shines nor lies beside what does. */
export const shineLeavesTooLittle = ({ plain, patches }: BorderShine): string | null =>
  plain.length < LEAST_TRUSTED * patches.cell.length ? "so much of the border shines that the light on the rest tells too little" : null;

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
type Found = Pick<BorderShine, "light" | "shining" | "plain"> & { readonly excess: Float32Array };

/** A first look says which patches shine; further looks leave them and their skirts out when they fit the light. */
function shiningPatches(patches: BorderPatches): Found | null {
  const { u, v, luminance, cell, columns, rows } = patches;
  let trusted: Int32Array = Int32Array.from({ length: cell.length }, (_, index) => index);
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
    const plain = plainOf(patches, shining);
    found = { light, shining, plain, excess };
    if (plain.length < LEAST_TRUSTED * cell.length) break;
    trusted = plain;
  }
  return found;
}

function worstOf({ luminance, cell }: BorderPatches, { shining, excess: excesses }: Found) {
  let strongest = 0;
  let worstLightness = 0;
  for (let index = 0; index < luminance.length; index++) {
    if (shining[cell[index] as number] !== 1) continue;
    const value = luminance[index] as number;
    const excess = excesses[index] as number;
    strongest = Math.max(strongest, excess);
    worstLightness = Math.max(worstLightness, lightnessOf(value) - lightnessOf(value / Math.exp(excess)));
  }
  return { strongest, worstLightness };
}
