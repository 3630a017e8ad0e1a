import type { Picture } from "../picture.ts";
import type { MeasureContext, Outline, Reading } from "../reading.ts";
import { type CodeHistograms, countCodes } from "./code-histograms.ts";
import { differenceOf, K2, nearestQuality, scaledTable } from "./jpeg-quality.ts";
import { jpegTables } from "./jpeg-tables.ts";
import { type LevelsInFact, levelsInFact } from "./levels-in-fact.ts";
import { holdsJpegInTiff } from "./lossy-kinds.ts";

/**
 * What the file itself shows:
 *
 * - bit depth in fact: bits per channel that the values really use, 8 to 16, of the channel that has most; see levels-in-fact.ts. It is at
 *   most so many: a picture of few bits that was resized, or turned by a small angle, in 16 uses all codes. It is told without the mark of a
 *   bound, since an aim that asks for so many bits could then never be met. Source: own.
 * - lossless: 1 or 0, from the kind of file, of a TIFF from its compression (tag 259).
 * - JPEG quality on the common scale of 1 to 100: the scale whose luminance table is the file's own, or lies nearest.
 *   Source: ITU-T T.81 | ISO/IEC 10918-1, Annex K, scaled as the Independent JPEG Group defined it.
 */
export function fileFacts(picture: Picture, _outline: Outline | null, context: MeasureContext): Reading[] {
  return [bitDepth(picture, context), lossless(context), jpegQuality(context)];
}

/** Pixels below which a picture of 16 bits is too small to tell, and above which only so many of its rows are looked at. */
const PIXELS_TO_TELL = 16_384;
const MOST_PIXELS = 4_000_000;
/** Share of the scale that levels under a curve must be seen on for their number to be firm. */
const FIRM_SEEN = 0.9;

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
  if (picture.widthPx * picture.heightPx < PIXELS_TO_TELL) return { name, absent: "the picture has too few pixels to tell" };
  const channels = histogramsOf(picture).map(levelsInFact);
  const telling = channels.filter(({ shows }) => shows !== "too-few");
  if (telling.length === 0) return { name, absent: "the picture uses too few different values to tell" };
  const most = telling.reduce((best, each) => (bitsOf(each) > bitsOf(best) ? each : best));
  const detail = { differentValues: Math.max(...channels.map(({ codes }) => codes)), shows: most.shows };
  if (most.shows === "part") {
    const note = `The picture uses so small a part of the scale that no more is told: its levels stand apart there, so that there may be less than ${bitsPerChannel} bits.`;
    return { name, value: bitsOf(most), reliability: "fair", bound: "lower", note, detail };
  }
  if (most.shows === "nothing" || bitsOf(most) >= bitsPerChannel) {
    const note = "No sign of fewer bits; at most so many, since a picture of 8 bits that was resized would look the same.";
    return { name, value: bitsPerChannel, reliability: "fair", note, detail };
  }
  const value = bitsOf(most);
  const isSeen = most.shows !== "comb" || most.seenShare >= FIRM_SEEN;
  const seen = isSeen ? "" : " They were counted on a part of the scale, and taken to be as close on the rest.";
  return {
    name,
    value,
    reliability: isSeen ? "firm" : "fair",
    note: `At most so many: the file is stored with ${bitsPerChannel} bits, but its values use no more levels than ${value} bits have.${seen}`,
    detail,
  };
}

const bitsOf = (levels: LevelsInFact): number => ("bits" in levels ? levels.bits : 16);

/** Of R, G, B, how many pixels have each code; of a large picture every so-and-so-many-th row is counted. */
function histogramsOf({ codes, widthPx, heightPx }: Picture): CodeHistograms {
  const histograms: CodeHistograms = [new Uint32Array(65536), new Uint32Array(65536), new Uint32Array(65536)];
  const stride = Math.ceil((widthPx * heightPx) / MOST_PIXELS);
  for (let y = 0; y < heightPx; y += stride) countCodes(codes, y * widthPx, (y + 1) * widthPx - 1, histograms);
  return histograms;
}

const SAYS_NOTHING = "Says nothing of how the picture was stored before.";
/** TIFF 6.0 and its supplements: none, CCITT, LZW, Deflate (two numbers), PackBits keep every value. */
const LOSSLESS_TIFF = [1, 2, 3, 4, 5, 8, 32946, 32773];

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
      if (holdsJpegInTiff({ fileKind, fileClaims }))
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

function jpegQuality(context: MeasureContext): Reading {
  const { fileKind, jpegHeader } = context;
  const name = "jpegQuality";
  if (holdsJpegInTiff(context))
    return {
      name,
      absent: "the file is a TIFF that holds JPEG data, whose tables are not looked into; the JPEG that it was made from would tell",
    };
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
