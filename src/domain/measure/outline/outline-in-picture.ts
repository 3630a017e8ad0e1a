import { areaOf, cornersOf, distanceTo, type Line, linesOf, SIDES } from "../lines.ts";
import { solve } from "../numbers/least-squares.ts";
import type { Quad } from "../picture.ts";
import type { Outline } from "../reading.ts";
import { disagreementOf, leastMisfit } from "../size-as-seen.ts";
import { LEAST_PAPER_LIGHTNESS } from "./paper-lightness.ts";
import { quadToCopy, type ReducedCopy } from "./reduced-copy.ts";
import { labSampler } from "./samplers.ts";
import type { Search } from "./search.ts";
import { stripAlong } from "./strip.ts";

/** What covers more of the frame than this is seldom a thing within a picture. Own, as a share. */
const LARGE_SHARE = 0.45;
/**
 * How unlike its parts are, L*a*b*: cards, cloths, checks and most wood stay below the first, grounds photographed with
 * everything that lies on them below the second, pictures mostly above. From drawn grounds and photographs. Own.
 */
const OF_ONE_KIND = 2;
const OF_MANY_KINDS = 5.5;
/** A sheet's border: chroma, and the share of it that is of one colour. */
const MOST_CHROMA = 20;
const PLAIN = 0.9;
/** How near proportions come to those of the record, as shares: of a sheet with its picture, and of a sheet alone. */
const SAME_WITH_PICTURE = 0.02;
const SAME_BORDERS = 0.04;
const SAME_ALONE = 0.015;
/** Proportions so far from the record's are another thing's, however bright its border; leaning captures and nominal sizes explain less. */
const CONTRADICTS = 0.06;

/**
 * Whether each of the prints found may be no print but a thing within a picture, such as a window: a file cropped to the
 * picture has no sheet to find. It is held to be so where it is small and what lies around all of them, up to the frame's
 * edge, is not one ground but many things; unless its own bright border with a picture inside, or its proportions, speak for a sheet.
 */
export function liesInPicture(search: Search, outlines: readonly Outline[]): readonly boolean[] {
  const { picture, copy } = search;
  const isSmall = ({ sheet }: Outline) => areaOf(cornersOf(sheet)) < LARGE_SHARE * picture.widthPx * picture.heightPx;
  if (!outlines.some(isSmall)) return outlines.map(() => false);
  const kinds = unlikeness(
    copy,
    outlines.map(({ sheet }) => quadToCopy(copy, sheet)),
  );
  return outlines.map((outline) => isSmall(outline) && kinds > OF_ONE_KIND && !speaksForSheet(search, outline, kinds));
}

function speaksForSheet({ copy, context }: Search, { sheet, image, sides }: Outline, kinds: number): boolean {
  const border = stripAlong(labSampler(copy), quadToCopy(copy, sheet), 3);
  const isBordered = image !== null && border.plain > PLAIN && border.lightness > LEAST_PAPER_LIGHTNESS && border.chroma < MOST_CHROMA;
  const misfit = leastMisfit(sheet, context.sheetWidthMm, context.sheetHeightMm);
  if (isBordered && context.imageWidthMm !== null && misfit < SAME_WITH_PICTURE)
    return disagreementOf(sheet, image, context) < SAME_BORDERS;
  const isContradicted = context.sheetWidthMm !== null && misfit > CONTRADICTS;
  if (isContradicted || kinds > OF_MANY_KINDS || SIDES.filter((side) => sides[side] === "seen").length < 3) return false;
  return isBordered || misfit < SAME_ALONE;
}

/** Every so many pixels of the copy are looked at; shadows and blur beside a sheet are kept off. */
const STEP_PX = 3;
const BESIDE_PX = 8;
/** The frame is looked at in so many parts, across and down; of a part with fewer pixels nothing is said. */
const PARTS = 4;
const FEWEST = 40;

/**
 * How differently the parts of the frame outside the quads are made up: the mean distance of the colours of each of 16 parts
 * from those of all (Wasserstein, by L*, a* and b* apart), once light that changes smoothly (second order) is taken out. A pattern
 * repeats itself in every part, whatever its contrast; a picture shows other things at other places. Own.
 */
function unlikeness(copy: ReducedCopy, quads: readonly Quad[]): number {
  const outside = placesOutside(copy, quads);
  const light = lightOver(copy, outside);
  return Math.hypot(...[copy.lightness, copy.a, copy.b].map((plane) => unlikenessOf(copy, withoutLight(light, plane, outside), outside)));
}

function placesOutside({ widthPx, heightPx }: ReducedCopy, quads: readonly Quad[]): number[] {
  const lines = quads.map((quad) => Object.values(linesOf(quad)) as Line[]);
  const places: number[] = [];
  for (let y = 0; y < heightPx; y += STEP_PX) {
    for (let x = 0; x < widthPx; x += STEP_PX)
      if (!lines.some((sides) => sides.every((line) => distanceTo(line, { x, y }) > -BESIDE_PX))) places.push(y * widthPx + x);
  }
  return places;
}

function unlikenessOf(copy: ReducedCopy, rest: readonly number[], places: readonly number[]): number {
  const ofAll = twentieths(rest);
  const parts = Array.from({ length: PARTS * PARTS }, (): number[] => []);
  places.forEach((at, index) => {
    const column = Math.floor((PARTS * (at % copy.widthPx)) / copy.widthPx);
    const row = Math.floor((PARTS * Math.floor(at / copy.widthPx)) / copy.heightPx);
    parts[row * PARTS + column]?.push(rest[index] as number);
  });
  let [sum, count] = [0, 0];
  for (const part of parts.filter(({ length }) => length >= FEWEST)) {
    const apart = twentieths(part).reduce((total, value, index) => total + Math.abs(value - (ofAll[index] as number)), 0);
    sum += (part.length * apart) / ofAll.length;
    count += part.length;
  }
  return count === 0 ? 0 : sum / count;
}

/** The values below which one to nineteen twentieths of all lie. */
function twentieths(values: readonly number[]): number[] {
  const sorted = Float64Array.from(values).sort();
  return Array.from({ length: 19 }, (_, index) => sorted[Math.floor(((index + 1) / 20) * sorted.length)] ?? 0);
}

/** The terms of second order at each place, and the sums of their products, 6 × 6. */
type Light = { readonly terms: readonly (readonly number[])[]; readonly matrix: readonly number[] };

function lightOver({ widthPx, heightPx }: ReducedCopy, places: readonly number[]): Light {
  const terms = places.map((at) => {
    const u = (2 * (at % widthPx)) / widthPx - 1;
    const v = (2 * Math.floor(at / widthPx)) / heightPx - 1;
    return [1, u, v, u * u, u * v, v * v];
  });
  const matrix = new Array<number>(36).fill(0);
  for (const row of terms) {
    for (let i = 0; i < 6; i++) {
      for (let j = 0; j < 6; j++) matrix[6 * i + j] = (matrix[6 * i + j] as number) + (row[i] as number) * (row[j] as number);
    }
  }
  return { terms, matrix };
}

/** What is left of a plane once its least-squares surface of second order is taken out. */
function withoutLight({ terms, matrix }: Light, plane: Float32Array, places: readonly number[]): number[] {
  const right = new Array<number>(6).fill(0);
  terms.forEach((row, index) => {
    const value = plane[places[index] as number] as number;
    for (let i = 0; i < 6; i++) right[i] = (right[i] as number) + (row[i] as number) * value;
  });
  const surface = solve(matrix, right) ?? [0, 0, 0, 0, 0, 0];
  return terms.map((row, index) => {
    let rest = plane[places[index] as number] as number;
    for (let i = 0; i < 6; i++) rest -= (row[i] as number) * (surface[i] as number);
    return rest;
  });
}
