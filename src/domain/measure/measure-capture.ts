import { MEASURES } from "./catalogue.ts";
import { doubleSave } from "./file/double-save.ts";
import { fileFacts } from "./file/file-facts.ts";
import { processingSigns } from "./file/processing-signs.ts";
import { barrel } from "./geometry/barrel.ts";
import { keystone } from "./geometry/keystone.ts";
import { margin } from "./geometry/margin.ts";
import { sampling } from "./geometry/sampling.ts";
import { sidesSeen } from "./geometry/sides-seen.ts";
import { skew } from "./geometry/skew.ts";
import { knownBlur } from "./laying/known-blur.ts";
import { makeGrid, type PrintGrid } from "./laying/print-grid.ts";
import { borderCast } from "./light/border-cast.ts";
import { borderEvenness } from "./light/border-evenness.ts";
import { borderGlare } from "./light/border-glare.ts";
import { borderShine } from "./light/border-shine.ts";
import { glareAlone } from "./light/glare-alone.ts";
import { haze } from "./light/haze.ts";
import { areaOf, cornersOf } from "./lines.ts";
import { findOutlines } from "./outline/outline.ts";
import type { Picture } from "./picture.ts";
import { isPresent, type MeasureContext, type Outline, type Reading } from "./reading.ts";
import { detailAlone } from "./sharpness/corroborated-detail.ts";
import { focus } from "./sharpness/focus.ts";
import { misregistration } from "./sharpness/misregistration.ts";
import { printEdges } from "./sharpness/print-edges.ts";
import { resolution } from "./sharpness/resolution.ts";
import { dust } from "./surface/dust.ts";
import { moire } from "./surface/moire.ts";
import { rings } from "./surface/rings.ts";
import { streaks } from "./surface/streaks.ts";
import { clipping } from "./tone/clipping.ts";
import { missingLevels } from "./tone/missing-levels.ts";
import { noise } from "./tone/noise.ts";
import { tonalRange } from "./tone/tonal-range.ts";

/** Everything that is read from one capture alone, in the order a keeper reads it. */
const MEASURES_OF_ONE = [
  sidesSeen,
  skew,
  keystone,
  margin,
  barrel,
  sampling,
  fromEdges,
  detailAlone,
  clipping,
  tonalRange,
  missingLevels,
  fromBorderLight,
  noise,
  streaks,
  moire,
  misregistration,
  rings,
  dust,
  fileFacts,
  doubleSave,
  processingSigns,
];

/** The edges of the print are looked at once for everything that is read from them. */
function fromEdges(picture: Picture, outline: Outline | null, context: MeasureContext): Reading[] {
  const edges = outline ? printEdges(picture, outline, context) : [];
  return [resolution, focus].flatMap((measure) => measure(picture, outline, context, edges));
}

/** The light on the border is looked at once for everything that is read from it. */
function fromBorderLight(picture: Picture, outline: Outline | null, context: MeasureContext, grid: PrintGrid | null): Reading[] {
  const shine = borderShine(picture, outline, context);
  return [borderGlare, glareAlone, haze, borderEvenness, borderCast].flatMap((measure) => measure(picture, outline, context, shine, grid));
}

export type MeasuredCapture = { readonly readings: Reading[]; readonly outlines: Outline[]; readonly grid: PrintGrid | null };

/**
 * Reads everything that one capture alone can tell. With several prints in the frame it is a bed: all are found, and the
 * largest is measured, until the bed is divided.
 */
export function measureCapture(picture: Picture, context: MeasureContext): MeasuredCapture {
  const outlines = findOutlines(picture, context);
  const outline = largestOutline(outlines);
  const grid = outline && makeGrid(picture, outline, context);
  const readings = MEASURES_OF_ONE.flatMap((measure) => measure(picture, outline, context, grid));
  const kept = grid && outline && { ...grid, blur: knownBlur(outline, readings) };
  return { readings: outline?.doubt === "in picture" ? readings.map(hinted) : readings, outlines, grid: kept };
}

/** What is read within an outline that may be no print's is a hint at most, whatever the measure says; what is read from the file holds. */
function hinted(reading: Reading): Reading {
  if (!isPresent(reading) || MEASURES[reading.name].region === "file") return reading;
  return { ...reading, reliability: "weak", note: [IN_PICTURE, reading.note].filter(Boolean).join(" ") };
}

const IN_PICTURE =
  "What was taken for the print may be a thing that the picture shows: other things go on around it to the frame's edge. Set the corners by hand, or capture the whole sheet with plain ground all round.";

/** The print that is measured where several lie in the frame; null where none was found. */
export const largestOutline = <T extends Pick<Outline, "sheet">>(outlines: readonly T[]): T | null =>
  outlines.reduce<T | null>((best, each) => (best && area(best) >= area(each) ? best : each), null);

const area = (outline: Pick<Outline, "sheet">) => areaOf(cornersOf(outline.sheet));
