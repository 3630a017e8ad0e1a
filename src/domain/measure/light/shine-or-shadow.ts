import { median } from "../numbers/robust.ts";
import type { Picture } from "../picture.ts";
import type { Outline } from "../reading.ts";
import type { BorderShine } from "./border-shine.ts";
import { picturePatches } from "./picture-patches.ts";
import { besideShine, isOnRim } from "./shine-going-on.ts";

/**
 * Whether the brighter of two levels of light on the border is light that is added to it, or the darker one lies in shadow. Light that is added
 * is added to the picture beside it too, so that no channel there is darker than that; a shadow leaves what is black as black beside the brighter
 * level as elsewhere. Null where the picture has too little that is dark along its rim to tell.
 * Source: own.
 */
export function isShineNotShadow(
  picture: Picture,
  outline: Outline,
  brighter: Pick<BorderShine, "border" | "patches" | "shining" | "light">,
): boolean | null {
  const patches = outline.image && picturePatches(picture, outline.image);
  if (!patches) return null;
  const { columns, rows, darkest } = patches;
  const added = besideShine(patches, brighter, outline);
  const rim = Int32Array.from(darkest.keys()).filter((at) => isOnRim(at, columns, rows));
  const beside = rim.filter((at) => (added[at] as number) > 0);
  if (beside.length < FEWEST) return null;
  const darker = beside.filter((at) => (darkest[at] as number) < OF_LIGHT * (added[at] as number));
  if (darker.length > MOST_DARKER * beside.length) return false;
  const light = median(Float32Array.from(beside, (at) => added[at] as number));
  const elsewhere = rim.filter((at) => added[at] === 0);
  const dark = elsewhere.filter((at) => (darkest[at] as number) < OF_LIGHT * light);
  return dark.length >= LEAST_DARK * elsewhere.length && dark.length >= FEWEST ? true : null;
}

/** Patches of the rim. */
const FEWEST = 12;
/** The darkest channel beside shine has at least this share of its light: light that is not quite white has less in one. */
const OF_LIGHT = 0.6;
/** Share of the rim beside the brighter level that may be darker all the same: dust, and places on the edge of the light. */
const MOST_DARKER = 0.1;
/** Share of the rim elsewhere that must be darker, so that it would be seen beside the brighter level too. */
const LEAST_DARK = 0.15;
