import type { FileClaims } from "../capture/file-claims.ts";
import type { MeasureName } from "./catalogue.ts";
import type { MarkedArea } from "./marked-area.ts";
import type { Quad } from "./picture.ts";

/** firm: use it to choose; fair: use it with its spread; weak: a hint, never the reason for a choice. */
export type Reliability = "firm" | "fair" | "weak";

/** What was read, or why it could not be. Never zero for "not read". */
export type Reading = Present | Absent;

export type Present = {
  readonly name: MeasureName;
  readonly value: number;
  readonly reliability: Reliability;
  /**
   * one standard uncertainty, same unit (JCGM 100:2008, 2.3.1): about two thirds of such readings lie within it. What is known as a
   * tolerance ± a goes in as a / √3, or a / √6 where the middle is likelier than the ends (4.3.7, 4.3.9)
   */
  readonly spread?: number;
  /** the true value is at least (lower) or at most (upper) this */
  readonly bound?: "lower" | "upper";
  /** one sentence for the keeper, where the number alone would mislead */
  readonly note?: string;
  /** parts of the reading (per side, per axis, curves, regions); shown as a table or a plot */
  readonly detail?: Readonly<Record<string, unknown>>;
  /** where exactly it was found, for drawing; it is kept beside the pictures, not with the readings */
  readonly area?: readonly MarkedArea[];
};

export type Absent = {
  readonly name: MeasureName;
  /** why, and where it helps what would tell, in words for the keeper */
  readonly absent: string;
};

export const isPresent = (reading: Reading | undefined): reading is Present => reading !== undefined && "value" in reading;

/** What a measure may know besides the pixels. Lengths are null when nobody knows them. */
export type MeasureContext = {
  readonly sheetWidthMm: number | null;
  readonly sheetHeightMm: number | null;
  readonly sheetToleranceMm: number | null;
  readonly imageWidthMm: number | null;
  readonly imageHeightMm: number | null;
  readonly claimedPpiX: number | null;
  readonly claimedPpiY: number | null;
  readonly fileKind: string;
  readonly bitsPerChannel: number;
  /** first bytes of a JPEG up to its image data, for the quantisation tables; null for other kinds */
  readonly jpegHeader: Uint8Array | null;
  /** what the file says of its own making; null where nobody looked */
  readonly fileClaims: FileClaims | null;
  readonly profileName: string | null;
  /** the sheet's corners as a person set them, in px of the frame; nothing is looked for then */
  readonly saidSheet?: Quad;
};

/** Where the print lies in the frame; see outline.ts. */
export type Outline = {
  readonly sheet: Quad;
  /** the picture inside its border; null where no border was told apart */
  readonly image: Quad | null;
  /** one-sigma uncertainty of a corner, px */
  readonly cornerSpreadPx: number;
  /** per side of the sheet: seen as an edge of its own, assumed from the format, or cut off by the frame */
  readonly sides: Readonly<Record<"top" | "right" | "bottom" | "left", "seen" | "assumed" | "cut-off">>;
  /** those of the assumed sides along which an edge is seen all the same, which need not be the sheet's own */
  readonly doubted?: readonly ("top" | "right" | "bottom" | "left")[];
  /** radial distortion of the lens as the sides show it, per px² (see lens.ts); absent where they are straight or do not tell */
  readonly radial?: number;
  /** true where a person set the sheet's corners */
  readonly isSaid?: boolean;
  /** touching: it runs into another print beside it, and where one ends was not seen; in picture: it may be a thing that a picture shows */
  readonly doubt?: "touching" | "in picture";
};
