import type { OriginalKind } from "./capture.ts";
import type { Method } from "./method.ts";
import type { MethodHints } from "./settings.ts";

/** EXIF FileSource (CIPA DC-008): 2 is a scanner of prints, 3 a digital camera. */
const PRINT_SCANNER = 2;

/** A phone's lens is a few millimetres long; a camera's on a copy stand is not (common practice, no source). */
const LONGEST_PHONE_LENS_MM = 12;
const LEAST_SCANNER_PPI = 150;

/**
 * The method a file was probably made with; null where its facts do not tell. Heuristics, common
 * practice without a source, to be corrected by the keeper. A sheet-fed scanner writes the same facts
 * as a flatbed, so it is never guessed.
 */
export function guessMethod(hints: MethodHints, kind: OriginalKind, claimedPpi: number | null): Method | null {
  if (hints.fileSource === PRINT_SCANNER) return "flatbed-scanner";
  if (hints.focalLengthMm !== null) return hints.focalLengthMm < LONGEST_PHONE_LENS_MM ? "phone-camera" : "copy-stand-camera";
  if (kind === "raw") return "copy-stand-camera";
  if (kind === "heic") return "phone-camera";
  const looksScanned = hints.fileSource === null && (kind === "tiff" || kind === "png") && (claimedPpi ?? 0) >= LEAST_SCANNER_PPI;
  return looksScanned ? "flatbed-scanner" : null;
}
