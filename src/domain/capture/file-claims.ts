import { z } from "zod";

/** What a file says of its own making that bears on whether it still is what the device wrote; null where it is silent. */
export type FileClaims = {
  /** of the whole file, upright */
  readonly fileWidthPx: number;
  readonly fileHeightPx: number;
  /** picture size that the device wrote down beside the picture */
  readonly saidWidthPx: number | null;
  readonly saidHeightPx: number | null;
  readonly takenAt: string | null;
  readonly changedAt: string | null;
  readonly software: string | null;
  readonly namesDevice: boolean;
  readonly namesExposure: boolean;
  readonly digitalZoom: number | null;
  readonly isComposite: boolean;
  readonly isHardSharpened: boolean;
  /** XMP lists edits, or another file that this one was made from */
  readonly listsEdits: boolean;
  /** tag 259 of a TIFF */
  readonly tiffCompression: number | null;
  /** the small picture that EXIF holds beside the large one */
  readonly thumbnail: Thumbnail | null;
};

/** R, G, B of sRGB row by row, upright by what the file says of its orientation. */
export type Thumbnail = { readonly widthPx: number; readonly heightPx: number; readonly rgb: Uint8Array };

const text = z.string().trim().min(1).max(200).nullable().catch(null);
const count = z.number().int().min(1).max(1_000_000).nullable().catch(null);
const number = z.number().nullable().catch(null);

/** Tags by the names of CIPA DC-008; 42080 is CompositeImage (2019), for readers that know it by number only. */
const tags = z.object({
  ExifImageWidth: count,
  ExifImageHeight: count,
  DateTimeOriginal: text,
  ModifyDate: text,
  Software: text,
  Make: text,
  Model: text,
  ExposureTime: number,
  FNumber: number,
  DigitalZoomRatio: number,
  CompositeImage: number,
  42080: number,
  Sharpness: number,
});

/** EXIF and XMP are a stranger's input: whatever does not fit is as if it had not been said. */
export function fileClaimsOf(
  exif: Readonly<Record<string, unknown>>,
  xmp: Readonly<Record<string, unknown>>,
  file: Pick<FileClaims, "fileWidthPx" | "fileHeightPx" | "tiffCompression"> & Partial<Pick<FileClaims, "thumbnail">>,
): FileClaims {
  const read = tags.parse(Object.fromEntries(Object.keys(tags.shape).map((name) => [name, exif[name] ?? null])));
  return {
    thumbnail: null,
    ...file,
    saidWidthPx: read.ExifImageWidth,
    saidHeightPx: read.ExifImageHeight,
    takenAt: read.DateTimeOriginal,
    changedAt: read.ModifyDate,
    software: read.Software,
    namesDevice: read.Make !== null || read.Model !== null,
    namesExposure: read.ExposureTime !== null || read.FNumber !== null,
    digitalZoom: read.DigitalZoomRatio,
    isComposite: [2, 3].includes(read.CompositeImage ?? read[42080] ?? 0),
    isHardSharpened: read.Sharpness === 2,
    listsEdits: "History" in xmp || "DerivedFrom" in xmp,
  };
}
