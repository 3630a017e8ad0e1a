import type { MeasureContext } from "#domain/measure/reading.ts";
import { imageSize, sheetSize } from "#domain/print/dimensions.ts";
import type { Queryable } from "#drizzle/client.ts";
import type { CaptureWithOriginal } from "#drizzle/queries/captures.ts";
import { findPrint } from "#drizzle/queries/prints.ts";

/** What measuring a capture may know besides its pixels, but for what only decoding tells. */
export type KnownContext = Omit<MeasureContext, "jpegHeader" | "fileClaims"> & { readonly sizeBasis: string | null };

/** The size comes from the print, front and back alike; without a print no size is known. */
export function knownContext(db: Queryable, capture: CaptureWithOriginal): KnownContext {
  const print = capture.printId === null ? null : findPrint(db, capture.printId);
  const sheet = print && sheetSize(print);
  const image = print && capture.side === "front" ? imageSize(print) : null;
  const { original } = capture;
  return {
    sheetWidthMm: sheet?.widthMm ?? null,
    sheetHeightMm: sheet?.heightMm ?? null,
    sheetToleranceMm: sheet?.toleranceMm ?? null,
    imageWidthMm: image?.widthMm ?? null,
    imageHeightMm: image?.heightMm ?? null,
    claimedPpiX: original.claimedPpiX,
    claimedPpiY: original.claimedPpiY,
    fileKind: original.kind,
    bitsPerChannel: original.bitsPerChannel,
    profileName: original.profileName,
    ...(capture.saidOutline && { saidSheet: capture.saidOutline }),
    sizeBasis: sheet ? `${sheet.basis}: ${sheet.source}` : null,
  };
}
