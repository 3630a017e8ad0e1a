import type { Canvas } from "#domain/comparison/canvas.ts";
import { homographyFromMm, inverse, project, scaleAt } from "#domain/measure/homography.ts";
import { eachCorner } from "#domain/measure/lines.ts";
import type { Point, Quad } from "#domain/measure/picture.ts";
import type { SizeMm } from "#domain/measure/size-as-seen.ts";
import type { Drawing, ShownOverlay } from "#views/parts/overlays.tsx";

/** Drawn in twentieths of a millimetre of the canvas. */
export const UNITS_PER_MM = 20;

/**
 * What is drawn over a capture, brought from the pixels of its frame onto the canvas that captures are laid on: by the plane through the
 * sheet's corners, which a curled print leaves by some tenths of a millimetre.
 */
export function laidOverlays(overlays: readonly ShownOverlay[], sheetInFrame: Quad, sheetMm: SizeMm, canvas: Canvas): ShownOverlay[] {
  const toMm = inverse(homographyFromMm(sheetMm.widthMm, sheetMm.heightMm, sheetInFrame));
  const place = ({ x, y }: Point): Point => {
    const mm = project(toMm, x, y);
    return { x: (mm.x + canvas.leftMm) * UNITS_PER_MM, y: (mm.y + canvas.topMm) * UNITS_PER_MM };
  };
  const { alongX } = scaleAt(toMm, sheetInFrame.topLeft.x, sheetInFrame.topLeft.y);
  const scale = alongX * UNITS_PER_MM;
  return overlays.map((overlay) => ({ ...overlay, drawing: overlay.drawing && laid(overlay.drawing, place, scale) }));
}

function laid(drawing: Drawing, place: (point: Point) => Point, scale: number): Drawing {
  switch (drawing.kind) {
    case "outline":
      return {
        ...drawing,
        outline: { ...drawing.outline, sheet: eachCorner(drawing.outline.sheet, place) },
        cornerSpreadPx: drawing.cornerSpreadPx * scale,
      };
    case "picture":
      return { ...drawing, corners: drawing.corners.map(place) };
    case "circles":
      return {
        ...drawing,
        circles: drawing.circles.map(({ at, size }) => ({ at: place(at), size })),
        arrow: drawing.arrow && { from: place(drawing.arrow.from), degrees: turned(drawing.arrow, place) },
      };
    case "figures":
      return { ...drawing, figures: drawing.figures.map(({ at, text }) => ({ at: place(at), text })) };
    case "lines":
      return { ...drawing, lines: drawing.lines.map(([from, to]) => [place(from), place(to)] as const) };
    default:
      return { ...drawing, loops: drawing.loops.map((loops) => loops.map((loop) => loop.map(place))) };
  }
}

/** A direction of the frame as it runs on the canvas: a capture may have been turned. */
function turned({ from, degrees }: { readonly from: Point; readonly degrees: number }, place: (point: Point) => Point): number {
  const angle = (degrees * Math.PI) / 180;
  const [start, end] = [place(from), place({ x: from.x + Math.cos(angle), y: from.y + Math.sin(angle) })];
  return (Math.atan2(end.y - start.y, end.x - start.x) * 180) / Math.PI;
}
