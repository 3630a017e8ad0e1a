import type { MeasureContext } from "../reading.ts";

/** Kinds of file whose usual compression changes codes: it spreads a stuck value over its neighbours and fills gaps between levels. */
const LOSSY_KINDS: ReadonlySet<string> = new Set(["jpeg", "webp", "avif", "heic"]);

/** Tag 259 of TIFF 6.0 and its supplements: JPEG, old and new. */
const LOSSY_TIFF: readonly number[] = [6, 7];

/** A TIFF that holds JPEG data, as some libraries write by default. */
export const holdsJpegInTiff = ({ fileKind, fileClaims }: Pick<MeasureContext, "fileKind" | "fileClaims">): boolean =>
  fileKind === "tiff" && LOSSY_TIFF.includes(fileClaims?.tiffCompression ?? 0);

/** Whether the file's own compression has changed its codes. */
export const isLossyFile = (context: Pick<MeasureContext, "fileKind" | "fileClaims">): boolean =>
  LOSSY_KINDS.has(context.fileKind) || holdsJpegInTiff(context);
