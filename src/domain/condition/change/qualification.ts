import { METHOD_LABELS, type Method } from "../../capture/method.ts";

/** How a capture was taken, as far as it says how true its tones and colours can be. */
export type Qualification = "target-checked" | Method | "unknown";

export const qualificationOf = (method: Method | null, hasPassedTargetCheck = false): Qualification =>
  method === null ? "unknown" : hasPassedTargetCheck ? "target-checked" : method;

export const QUALIFICATION_LABELS: Readonly<Record<Qualification, string>> = {
  "target-checked": "Set-up with a passing target check",
  ...METHOD_LABELS,
  unknown: "Method not known",
};

/** Half-widths of what a capture may be off by; values near the middle are likelier than those near the ends. */
export type Trueness = {
  /** lightness as such, L* */
  readonly lightness: number;
  /** colour as such: length in the plane of a* and b* */
  readonly colour: number;
  /** lightness beside the print's own border, L*: exposure has dropped out, tone curve and stray light have not */
  readonly besideBorder: number;
  readonly source: string;
};

const OWN = "own estimate, no source";

/**
 * What is assumed of a capture where nothing better is known. A passing target check has shown the limits it was passed by;
 * the other rows are ours, and wide on purpose: automatic exposure, colour balance and tone curves of such captures are not known.
 * The true errors of two captures by one set-up are alike and partly cancel, so these figures are on the safe side.
 */
export const TRUENESS: Readonly<Record<Qualification, Trueness>> = {
  "target-checked": {
    lightness: 3,
    colour: 4,
    besideBorder: 3,
    source:
      "limits of tone response and white balance of FADGI, Technical Guidelines for Digitizing Cultural Heritage Materials, 2023, three star (read in quotations)",
  },
  "flatbed-scanner": { lightness: 6, colour: 6, besideBorder: 4, source: OWN },
  "sheet-fed-scanner": { lightness: 8, colour: 8, besideBorder: 5, source: OWN },
  "copy-stand-camera": { lightness: 10, colour: 8, besideBorder: 5, source: OWN },
  "phone-camera": { lightness: 20, colour: 18, besideBorder: 8, source: OWN },
  unknown: { lightness: 20, colour: 18, besideBorder: 8, source: OWN },
};

/** Standard uncertainty of a quantity known within ± a, the middle likelier than the ends: a / √6 (JCGM 100:2008, 4.3.9). */
export const standardOf = (halfWidth: number): number => halfWidth / Math.sqrt(6);

/** The same along one axis, of a length in the plane of a* and b*. */
export const standardAlongAxis = (radius: number): number => standardOf(radius / Math.SQRT2);
