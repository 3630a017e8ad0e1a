import { differenceOf, K2, nearestQuality, scaledTable } from "./jpeg-quality.ts";
import { jpegTables } from "./jpeg-tables.ts";
import type { Picture } from "./picture.ts";
import type { MeasureContext, Outline, Reading } from "./reading.ts";

/**
 * What the file itself shows:
 *
 * - bit depth in fact: bits per channel that the values really use. A 16-bit file with no more than 256 different codes
 *   in any channel holds 8 bits, with no more than 4,096 it holds 12. More codes are no proof: an 8-bit picture that was
 *   resized uses them all. Source: common practice, no source.
 * - lossless: 1 or 0, from the kind of file, of a TIFF from its compression (tag 259).
 * - JPEG quality on the common scale of 1 to 100: the scale whose luminance table is the file's own, or lies nearest.
 *   Source: ITU-T T.81 | ISO/IEC 10918-1, Annex K, scaled as the Independent JPEG Group defined it.
 */
export function fileFacts(picture: Picture, _outline: Outline | null, context: MeasureContext): Reading[] {
  return [bitDepth(picture, context), lossless(context), jpegQuality(context)];
}

/** Below so many different codes a 16-bit picture is too plain, and below so many pixels too small, to tell. */
const FEWEST_CODES = 16;
const PIXELS_TO_TELL = 16_384;
const CODES_OF_8_BITS = 256;
const CODES_OF_12_BITS = 4096;

function bitDepth(picture: Picture, { bitsPerChannel }: MeasureContext): Reading {
  const name = "effectiveBitDepth";
  if (picture.maxCode === 255) {
    if (bitsPerChannel <= 8) return { name, value: bitsPerChannel, reliability: "firm" };
    return {
      name,
      value: 8,
      reliability: "fair",
      bound: "lower",
      note: `The file holds ${bitsPerChannel} bits, but only 8 of them could be read here.`,
    };
  }
  const distinct = mostDistinct(picture.codes, CODES_OF_12_BITS);
  if (distinct < FEWEST_CODES) return { name, absent: "the picture uses too few different values to tell" };
  if (picture.widthPx * picture.heightPx < PIXELS_TO_TELL) return { name, absent: "the picture has too few pixels to tell" };
  if (distinct > CODES_OF_12_BITS) {
    const note = "No sign of fewer bits; a picture of 8 bits that was resized would look the same.";
    return { name, value: bitsPerChannel, reliability: "fair", note };
  }
  const value = distinct <= CODES_OF_8_BITS ? 8 : 12;
  const stored = bitsPerChannel > value;
  return {
    name,
    value,
    reliability: "firm",
    ...(stored && { note: `The file is stored with ${bitsPerChannel} bits, but its values use no more than ${value}.` }),
    detail: { differentValues: distinct },
  };
}

/** Different codes of the channel that has most; counting stops beyond `enough`. */
function mostDistinct(codes: Uint8Array | Uint16Array, enough: number): number {
  let most = 0;
  for (let channel = 0; channel < 3; channel++) {
    const seen = new Uint8Array(65536);
    let distinct = 0;
    for (let at = channel; at < codes.length && distinct <= enough; at += 3) {
      const code = codes[at] as number;
      if (seen[code] === 0) {
        seen[code] = 1;
        distinct++;
      }
    }
    most = Math.max(most, distinct);
    if (most > enough) break;
  }
  return most;
}

const SAYS_NOTHING = "Says nothing of how the picture was stored before.";
/** TIFF 6.0 and its supplements: none, CCITT, LZW, Deflate (two numbers), PackBits keep every value; JPEG (two numbers) does not. */
const LOSSLESS_TIFF = [1, 2, 3, 4, 5, 8, 32946, 32773];
const LOSSY_TIFF = [6, 7];

function lossless({ fileKind, fileClaims }: MeasureContext): Reading {
  const name = "lossless";
  switch (fileKind) {
    case "jpeg":
      return { name, value: 0, reliability: "firm" };
    case "png":
      return { name, value: 1, reliability: "firm", note: SAYS_NOTHING };
    case "tiff": {
      const compression = fileClaims?.tiffCompression ?? null;
      if (compression !== null && LOSSLESS_TIFF.includes(compression)) return { name, value: 1, reliability: "firm", note: SAYS_NOTHING };
      if (compression !== null && LOSSY_TIFF.includes(compression))
        return { name, value: 0, reliability: "firm", note: "The TIFF file holds JPEG data, which throws values away." };
      return {
        name,
        value: 1,
        reliability: "fair",
        note: "Taken as lossless: a TIFF file seldom loses values, but how this one is compressed is not known.",
      };
    }
    case "raw":
      return {
        name,
        value: 1,
        reliability: "fair",
        note: "Taken as lossless: some cameras compress raw files with loss, and this was not looked into.",
      };
    case "webp":
    case "avif":
    case "heic":
      return { name, value: 0, reliability: "fair", note: "Taken as lossy: this kind of file can be lossless but seldom is." };
    default:
      return { name, absent: `it is not known whether files of the kind "${fileKind}" keep every value` };
  }
}

function jpegQuality({ fileKind, jpegHeader }: MeasureContext): Reading {
  const name = "jpegQuality";
  if (fileKind !== "jpeg") return { name, absent: "the file is no JPEG" };
  const tables = jpegHeader && jpegTables(jpegHeader);
  if (!tables) return { name, absent: "the file's quantisation tables could not be read" };
  const { quality, difference } = nearestQuality(tables.luminance);
  const isExact = difference === 0;
  const colourIsExact = tables.colour && differenceOf(scaledTable(K2, quality), tables.colour) === 0;
  return {
    name,
    value: quality,
    reliability: isExact ? "firm" : "fair",
    ...(!isExact && { note: "The device used tables of its own; this is the nearest on the common scale." }),
    detail: { exact: isExact, difference, colourTableFits: colourIsExact, sampling: tables.sampling },
  };
}
