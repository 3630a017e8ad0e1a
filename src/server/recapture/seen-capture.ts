import { frameOf } from "#domain/capture/capture.ts";
import { measuredOutline } from "#domain/measure/kept-outlines.ts";
import { markedAreasOf } from "#domain/measure/marked-places.ts";
import { lensOfCapture } from "#domain/recapture/lens-of-capture.ts";
import { presentIn, type SeenCapture } from "#domain/recapture/seen-capture.ts";
import type { Queryable } from "#drizzle/client.ts";
import { findCapture } from "#drizzle/queries/captures.ts";
import { findMeasureSet, readingsOfCaptures } from "#drizzle/queries/measures.ts";
import { findSetUp } from "#drizzle/queries/set-ups.ts";

/** A capture as its readings show it; null where it is gone. */
export function seenCapture(db: Queryable, captureId: number): SeenCapture | null {
  const capture = findCapture(db, captureId);
  if (!capture) return null;
  const readings = readingsOfCaptures(db, [captureId]).get(captureId) ?? [];
  const setUp = capture.setUpId === null ? null : findSetUp(db, capture.setUpId);
  return {
    isCamera: capture.method === "phone-camera" || capture.method === "copy-stand-camera",
    frame: frameOf(capture),
    isWholeFrame: capture.region === null,
    outline: measuredOutline(findMeasureSet(db, captureId, "alone")),
    readings,
    areas: new Map(readings.map((reading) => [reading.name, markedAreasOf(reading)])),
    lens: lensOfCapture({
      ...capture.original,
      camera: setUp?.arrangement?.camera ?? null,
      samplingPpi: presentIn({ readings }, "samplingPpi")?.value ?? null,
    }),
  };
}
