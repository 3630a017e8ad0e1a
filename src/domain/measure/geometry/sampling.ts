import type { Picture } from "../picture.ts";
import type { MeasureContext, Outline, Reading } from "../reading.ts";
import { isHabitualPpi } from "./claimed-size.ts";
import { type PrintScale, printScale } from "./print-scale.ts";
import { NOT_FOUND } from "./sides-seen.ts";

/**
 * Sampling of the print in pixels per inch, at its middle: the lower of the two directions. With it the scale error of
 * the file: how far its own claim is from that, 100 (measured − claimed) / claimed in percent, without sign.
 *
 * Formula: length of the columns of the Jacobian of the map from mm to px, times 25.4.
 * Needs: the print's size in mm, from a ruler or its format; a size passes its tolerance on, any length within it as likely.
 * Source: FADGI 2016, sampling frequency at the original; 36 CFR 1236.50 limits the reproduction scale (its sign is
 * common practice).
 */
export function sampling(picture: Picture, outline: Outline | null, context: MeasureContext): Reading[] {
  const scale = outline ? printScale(picture, outline, context) : NOT_FOUND;
  if (typeof scale === "string") {
    return [
      { name: "samplingPpi", absent: scale },
      { name: "scaleErrorPercent", absent: `the sampling could not be read: ${scale}` },
    ];
  }
  const { ppiX, ppiY, spreadShare, basis, reliability, bound, note } = scale;
  const value = Math.min(...[ppiX, ppiY].filter((ppi) => ppi !== null));
  return [
    {
      name: "samplingPpi",
      value,
      spread: value * spreadShare,
      reliability,
      ...(bound && { bound }),
      ...(note && { note }),
      detail: { ppiX, ppiY, basis },
    },
    scaleError(scale, context),
  ];
}

function scaleError({ ppiX, ppiY, spreadShare, reliability, bound }: PrintScale, { claimedPpiX, claimedPpiY }: MeasureContext): Reading {
  if (!claimedPpiX || !claimedPpiY) return { name: "scaleErrorPercent", absent: "the file does not say how many pixels per inch it has" };
  if (bound) return { name: "scaleErrorPercent", absent: "the sampling is known from below only, because the frame cuts the print" };
  const errors = {
    errorXPercent: ppiX && (100 * (ppiX - claimedPpiX)) / claimedPpiX,
    errorYPercent: ppiY && (100 * (ppiY - claimedPpiY)) / claimedPpiY,
  };
  const value = Math.max(...Object.values(errors).flatMap((error) => (error === null ? [] : [Math.abs(error)])));
  const isHabit = isHabitualPpi(claimedPpiX);
  return {
    name: "scaleErrorPercent",
    value,
    spread: (100 + value) * spreadShare,
    reliability,
    ...(isHabit && {
      note: `The file says ${Math.round(claimedPpiX)} ppi, which devices write that do not know their scale; go by the measured sampling.`,
    }),
    detail: { ...errors, claimedPpiX, claimedPpiY },
  };
}
