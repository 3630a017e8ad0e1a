import type { OriginalKind } from "./capture.ts";
import type { Method } from "./method.ts";
import type { MethodHints } from "./settings.ts";

/** EXIF FileSource (CIPA DC-008): 2 is a scanner of prints, 3 a digital camera. */
const PRINT_SCANNER = 2;

/** How often the sensor's diagonal goes into that of 36 x 24 mm: above 3 it is a phone's, up to about 2.2 a camera's (common practice, no source). */
const PHONE_SENSOR_FROM = 3;
const CAMERA_SENSOR_TO = 2.2;
/** Where the file does not tell the size of the sensor: shorter lenses are a phone's, longer ones a camera's, and between lie both. */
const SHORT_LENS_MM = 12;
const LONG_LENS_MM = 35;
const LEAST_SCANNER_PPI = 150;

/**
 * The method a file was probably made with; null where its facts do not tell. Heuristics, common
 * practice without a source, to be corrected by the keeper. A sheet-fed scanner writes the same facts
 * as a flatbed, so it is never guessed.
 */
export function guessMethod(hints: MethodHints, kind: OriginalKind, claimedPpi: number | null): Method | null {
  if (hints.fileSource === PRINT_SCANNER || /\bflatbed\b/i.test(hints.device)) return "flatbed-scanner";
  if (hints.focalLengthMm !== null) return byLens(hints.focalLengthMm, hints.focalLength35Mm);
  if (kind === "raw") return "copy-stand-camera";
  if (kind === "heic") return "phone-camera";
  const looksScanned = hints.fileSource === null && (kind === "tiff" || kind === "png") && (claimedPpi ?? 0) >= LEAST_SCANNER_PPI;
  return looksScanned ? "flatbed-scanner" : null;
}

/** By the size of the sensor where the file gives the lens both as it is and as it would be on 36 x 24 mm; else by the lens alone. */
function byLens(focalLengthMm: number, focalLength35Mm: number | null): Method | null {
  // EXIF writes 0 for a length that is not known
  const sensor = focalLength35Mm && focalLengthMm > 0 ? focalLength35Mm / focalLengthMm : null;
  if (sensor !== null && sensor >= PHONE_SENSOR_FROM) return "phone-camera";
  if (sensor !== null && sensor <= CAMERA_SENSOR_TO) return "copy-stand-camera";
  if (focalLengthMm < SHORT_LENS_MM) return "phone-camera";
  return sensor === null && focalLengthMm >= LONG_LENS_MM ? "copy-stand-camera" : null;
}
