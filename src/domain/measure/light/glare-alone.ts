import { lightnessOf } from "../colour/lab.ts";
import { homographyFromMm, inverse, project } from "../homography.ts";
import { areaOf, cornersOf } from "../lines.ts";
import { type MarkedArea, markedArea } from "../marked-area.ts";
import { median } from "../numbers/robust.ts";
import type { Picture } from "../picture.ts";
import { boxesOf, opened, patchesOf, withoutSpecks } from "../planes/mask.ts";
import type { MeasureContext, Outline, Present, Reading } from "../reading.ts";
import { sizeAsSeen } from "../size-as-seen.ts";
import { ANOTHER_WOULD, type BorderShine, borderShine } from "./border-shine.ts";
import { type PicturePatches, picturePatches } from "./picture-patches.ts";
import { besideShine, goingOn, isOnRim, LEAST_GOING_ON } from "./shine-going-on.ts";
import { shineInWords, type ToldShine, toldShines } from "./shine-kind.ts";
import { ABOVE_PAPER, isWhitePaper } from "./white-paper.ts";

/**
 * Glare from one capture. glareAreaPercent: share of the print (sheet with its border) that shines. glarePeakDeltaL: the
 * largest lightness it adds, L*. What counts is, where there is some:
 *
 * - the border where it is brighter than its light (border-shine.ts), which is certain;
 * - in the picture what is brighter than the border's own white there by 6 %, or clipped in all channels while that white
 *   would not be: no picture is whiter than its paper. Needs a border on three sides that is light and nearly neutral, since a
 *   print may lie on a mount darker than its own whites, and does not count when most of the picture would shine;
 * - in the picture what goes on from shine on the border beside it: bright, plain, colourless areas, and areas to which the same light was added
 *   (shine-going-on.ts).
 *
 * Both figures are then "at least": shine over dark parts of the picture stays below the white of the paper. Where nothing
 * of this is found, the bright, plain, colourless areas are told as a weak hint: pale walls, sky and snow look the
 * same. Such a patch has its darkest channel, lowest over its neighbourhood, 0.08 (linear light) above that of the middle patch,
 * a saturation below 0.25 and a texture contrast below half that of the middle patch.
 *
 * Not told: shine that the whole print has (see haze.ts), and shine on a border that is itself clipped.
 * Source: own; the signs of the weak hint are common practice, no source.
 */
export function glareAlone(
  picture: Picture,
  outline: Outline | null,
  context: MeasureContext,
  shine: BorderShine | string = borderShine(picture, outline, context),
): Reading[] {
  const absent = (reason: string): Reading[] => NAMES.map((name) => ({ name, absent: reason }));
  if (!outline) return absent("the print was not found in the frame");
  const patches = picturePatches(picture, outline.image ?? outline.sheet);
  if (!patches) return absent("too little of the picture lies in the frame, or it is too small");
  const { columns, rows } = patches;
  const suspect = suspectsOf(patches);
  const isPaper =
    typeof shine !== "string" && shine.border.sides.length >= SIDES_FOR_WHITE && isWhitePaper(shine.patches, picture.toXyzD50);
  const certain = typeof shine === "string" ? new Uint8Array(suspect.length) : certainOf(patches, suspect, outline, shine, isPaper);
  const borderShare = typeof shine === "string" ? null : shareOfBorder(shine, outline, patches, certain);
  const pictureShare = outline.image ? areaOf(cornersOf(outline.image)) / areaOf(cornersOf(outline.sheet)) : 1;
  const percentOf = (mask: Uint8Array) => 100 * (pictureShare * shareOf(mask) + (borderShare ?? 0));
  const isCertain = percentOf(certain) > 0;
  const shown = isCertain ? certain : suspect;
  const inPicture = typeof shine === "string" ? 0 : worstAbovePaper(patches, certain, outline, shine);
  const reflections = isCertain && isPaper && typeof shine !== "string" ? reflectionsAbovePaper(patches, certain, outline, shine) : [];
  return [
    {
      name: "glareAreaPercent",
      value: percentOf(shown),
      ...trustIn(isCertain, isPaper, percentOf(suspect), shineInWords(reflections)),
      detail: {
        of: "picture",
        places: boxesOf(shown, columns, rows, sizeAsSeen(outline.sheet, outline.image, context).image).slice(0, MOST_PLACES),
        borderPercent: borderShare === null ? null : 100 * borderShare,
        reflections,
        alsoSuspectPercent: isCertain ? 100 * pictureShare * shareOf(suspect.map((value, at) => (certain[at] === 1 ? 0 : value))) : 0,
      },
      area: areaOfGlare(shown, patches, isCertain && typeof shine !== "string" ? shine : null),
    },
    typeof shine === "string" ? { name: "glarePeakDeltaL", absent: orAnother(shine) } : peakOf(shine, inPicture, isPaper),
  ];
}

/** The picture's patches and, where the border counts too, those of the border. */
function areaOfGlare(shown: Uint8Array, { columns, rows }: PicturePatches, shine: BorderShine | null): MarkedArea[] {
  const inPicture = markedArea("picture", shown, columns, rows);
  return shine ? [inPicture, markedArea("sheet", shine.shining, shine.patches.columns, shine.patches.rows)] : [inPicture];
}

const NAMES = ["glareAreaPercent", "glarePeakDeltaL"] as const;
const LEAST_RISE = 0.08;
const MOST_SATURATION = 0.25;
const MOST_PLACES = 12;
const MOST_HEADROOM_USED = 0.97;
const CLIPPED_SHARE = 0.9;
/** A larger share of the picture above the paper's white means that the border is no paper of the picture's kind. */
const MOST_ABOVE_PAPER = 0.4;
/** Patches that must touch to count. */
const LEAST_PATCHES = 4;
const SIDES_FOR_WHITE = 3;
const CERTAIN_NOTE = "Brighter than the white of the border can be. Over dark parts of the picture more may shine than is seen.";
const HINT_NOTE = "Bright, plain areas: look whether they are glare or belong to the picture. Another capture of the print would tell.";

const MOUNT_NOTE = "The border is too dark or too coloured to be sure that it is plain white paper: what is brighter may belong to it.";
const NOTHING_NOTE = "Nothing looks like glare. Over dark parts of the picture it may still be; another capture of the print would tell.";

function trustIn(
  isCertain: boolean,
  isPaper: boolean,
  suspectPercent: number,
  looksLike: string | null,
): Pick<Present, "reliability" | "bound" | "note"> {
  if (isCertain && !isPaper) return { reliability: "weak", note: MOUNT_NOTE };
  if (isCertain) return { reliability: "fair", bound: "lower", note: [looksLike, CERTAIN_NOTE].filter((words) => words).join(" ") };
  return { reliability: "weak", note: suspectPercent > 0 ? HINT_NOTE : NOTHING_NOTE };
}

/** Share of the sheet that shines on its border: where a strip along a hidden side (hidden-sides.ts) lies over patches of the picture that count, they do. */
function shareOfBorder(
  { shining, patches: { columns, rows } }: BorderShine,
  { sheet }: Outline,
  picture: PicturePatches,
  certain: Uint8Array,
): number {
  const map = homographyFromMm(columns, rows, sheet);
  let count = 0;
  shining.forEach((value, at) => {
    if (value !== 1) return;
    const { x, y } = picture.patchAt(project(map, (at % columns) + 0.5, Math.floor(at / columns) + 0.5));
    const isInPicture = x >= 0 && y >= 0 && x < picture.columns && y < picture.rows;
    if (!isInPicture || certain[Math.floor(y) * picture.columns + Math.floor(x)] === 0) count++;
  });
  return count / shining.length;
}

const shareOf = (mask: Uint8Array) => mask.reduce((sum, value) => sum + value, 0) / mask.length;

/** Bright, plain and colourless patches. */
function suspectsOf({ darkest, saturation, texture, columns, rows }: PicturePatches): Uint8Array {
  const floor = lowest(darkest, columns, rows);
  const floorLimit = median(floor) + LEAST_RISE;
  const textureLimit = median(texture) / 2;
  const mask = new Uint8Array(floor.length);
  for (let at = 0; at < mask.length; at++) {
    const isBright = (floor[at] as number) > floorLimit;
    if (isBright && (saturation[at] as number) < MOST_SATURATION && (texture[at] as number) < textureLimit) mask[at] = 1;
  }
  return opened(mask, columns, rows);
}

/** Patches above the white of the paper, and suspects that go on as shine on the border. */
function certainOf(patches: PicturePatches, suspect: Uint8Array, outline: Outline, shine: BorderShine, isPaper: boolean): Uint8Array {
  const { columns, rows, luminance, clipped } = patches;
  const paperAt = paperOf(patches, outline, shine);
  const above = new Uint8Array(suspect.length);
  if (isPaper) {
    for (let at = 0; at < above.length; at++) {
      const paper = paperAt(at);
      const isBurnt = (clipped[at] as number) >= CLIPPED_SHARE && paper < MOST_HEADROOM_USED;
      if (isBurnt || (luminance[at] as number) > ABOVE_PAPER * paper) above[at] = 1;
    }
    if (shareOf(above) > MOST_ABOVE_PAPER) above.fill(0);
  }
  const certain = withoutSpecks(above, columns, rows, LEAST_PATCHES);
  const beside = besideShine(patches, shine, outline);
  for (const at of goingOn(patches, beside)) certain[at] = 1;
  for (const patch of patchesOf(suspect, columns, rows)) {
    const rim = patch.filter((at) => isOnRim(at, columns, rows));
    if (rim.length > 0 && rim.filter((at) => (beside[at] as number) > 0).length >= LEAST_GOING_ON * rim.length)
      for (const at of patch) certain[at] = 1;
  }
  return certain;
}

/** Luminance that plain paper would have under each patch. */
function paperOf({ placeOf }: PicturePatches, { sheet }: Outline, { light }: BorderShine): (at: number) => number {
  const back = inverse(homographyFromMm(1, 1, sheet));
  return (at) => {
    const place = placeOf(at);
    const { x, y } = project(back, place.x, place.y);
    return light.at(2 * x - 1, 2 * y - 1);
  };
}

/** What is mirrored, by the shape of the light above that of the paper; only what is brighter than paper shows its shape. */
function reflectionsAbovePaper(patches: PicturePatches, certain: Uint8Array, outline: Outline, shine: BorderShine): ToldShine[] {
  const { columns, rows, luminance, clipped } = patches;
  const paperAt = paperOf(patches, outline, shine);
  const data = luminance.map((value, at) => ((clipped[at] as number) >= CLIPPED_SHARE ? 1 : value) - paperAt(at));
  return toldShines({ light: { width: columns, height: rows, data }, mask: certain, marginCells: 0 });
}

/** Largest L* above that of the paper. */
function worstAbovePaper(patches: PicturePatches, certain: Uint8Array, outline: Outline, shine: BorderShine): number {
  const paperAt = paperOf(patches, outline, shine);
  return patches.luminance.reduce(
    (worst, value, at) => (certain[at] === 1 ? Math.max(worst, lightnessOf(value) - lightnessOf(paperAt(at))) : worst),
    0,
  );
}

/** Why the border tells nothing, and what would. */
const orAnother = (why: string) => (why.includes(ANOTHER_WOULD) ? why : `${why}; ${ANOTHER_WOULD} tell`);

function peakOf(border: BorderShine, inPicture: number, isPaper: boolean): Reading {
  const name = "glarePeakDeltaL";
  const value = Math.max(border.worstLightness, inPicture);
  const detail = { onBorder: border.worstLightness, inPictureAbovePaper: inPicture };
  if (value === 0)
    return {
      name,
      value,
      reliability: "weak",
      note: "Nothing shines on the border; whether anything does in the picture, another capture would tell.",
      detail,
    };
  const reliability: Present["reliability"] =
    border.worstLightness >= inPicture && border.border.sides.length >= SIDES_FOR_WHITE ? "firm" : "fair";
  return isPaper ? { name, value, reliability, bound: "lower", detail } : { name, value, reliability: "weak", note: MOUNT_NOTE, detail };
}

/** Lowest value among each patch and its eight neighbours. */
function lowest(values: Float32Array, columns: number, rows: number): Float32Array {
  const lowest = new Float32Array(values.length);
  for (let y = 0, at = 0; y < rows; y++) {
    for (let x = 0; x < columns; x++, at++) {
      let least = Number.POSITIVE_INFINITY;
      for (let j = Math.max(0, y - 1); j <= Math.min(rows - 1, y + 1); j++) {
        for (let i = Math.max(0, x - 1); i <= Math.min(columns - 1, x + 1); i++) least = Math.min(least, values[j * columns + i] as number);
      }
      lowest[at] = least;
    }
  }
  return lowest;
}
