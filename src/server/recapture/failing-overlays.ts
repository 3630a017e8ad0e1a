import { frameOf } from "#domain/capture/capture.ts";
import { measuredOutline } from "#domain/measure/kept-outlines.ts";
import type { FrameSize } from "#domain/measure/marked-area.ts";
import { findCapture } from "#drizzle/queries/captures.ts";
import { findMeasureSet, readingsOfCaptures } from "#drizzle/queries/measures.ts";
import type { OverlayId, ShownOverlay } from "#views/parts/overlays.tsx";
import type { Context } from "../context.ts";
import { shownOverlays } from "../overlays/shown-overlays.ts";
import { areasOf } from "../work/areas-file.ts";

/** A capture with what its failing measures marked in it. */
export type FailingPicture = FrameSize & {
  readonly captureId: number;
  readonly fileName: string;
  readonly overlays: readonly ShownOverlay[];
};

/** Where each measure that an aim may limit is seen in the picture; a measure of the whole file is seen nowhere. */
const SEEN_AS: Readonly<Record<string, readonly OverlayId[]>> = {
  sidesSeen: ["outline"],
  skewDegrees: ["outline"],
  keystonePercent: ["outline"],
  keystoneMm: ["outline"],
  marginMm: ["outline"],
  glareAreaPercent: ["glare"],
  borderGlarePercent: ["glare"],
  glarePeakDeltaL: ["glare"],
  clippedHighlightsPercent: ["highlights"],
  clippedShadowsPercent: ["shadows"],
  streakCount: ["streaks"],
  streakDeltaL: ["streaks"],
  ringAreaPercent: ["rings"],
  dustPerCm2: ["dust"],
  scratchLengthMm: ["dust"],
  focusFalloffPercent: ["sharpness"],
  sfr50CyPerMm: ["sharpness", "edges"],
  sfr10CyPerMm: ["sharpness", "edges"],
  evennessPercent: ["evenness"],
  borderLightnessSpreadPercent: ["evenness"],
};

/** The capture that a row's reasons speak of, with the places that fail; null where it is gone. */
export async function failingPicture(context: Context, captureId: number, measures: readonly string[]): Promise<FailingPicture | null> {
  const capture = findCapture(context.db, captureId);
  if (!capture) return null;
  const readings = readingsOfCaptures(context.db, [captureId]).get(captureId) ?? [];
  const frame = frameOf(capture);
  const outline = measuredOutline(findMeasureSet(context.db, captureId, "alone"));
  const wanted = new Set(measures.flatMap((measure) => SEEN_AS[measure] ?? []));
  const areas = await areasOf(context.folder, captureId, readings);
  const overlays = shownOverlays({ frame, outline, readings, areas }).filter(({ id, drawing }) => wanted.has(id) && drawing !== null);
  return { captureId, fileName: capture.original.originalName, ...frame, overlays };
}
