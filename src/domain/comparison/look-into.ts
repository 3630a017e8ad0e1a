import { commonPlaces } from "../measure/laying/matched.ts";
import { blurred, type GridPlane } from "../measure/planes/grid-plane.ts";
import type { Canvas } from "./canvas.ts";
import { type BoxMm, closeUpPlaces } from "./close-up-places.ts";
import type { LaidCapture, LaidSide } from "./laid-side.ts";
import type { SheetLaid } from "./lay-on-sheet.ts";
import { lightnessShares, toneCurve } from "./tones.ts";

/** A laid capture with its canvas in small: linear luminance, NaN where its frame ends. */
export type InSmall = { readonly laid: Omit<LaidCapture, "toneCurve" | "lightnessShares">; readonly plane: GridPlane };

/** Where to look closely, and how tones of one capture turn into those of another. */
export function lookInto(
  written: readonly InSmall[],
  { sheetMm, pictureMm, referenceId }: Pick<SheetLaid, "sheetMm" | "pictureMm" | "referenceId">,
  canvas: Canvas,
): Pick<LaidSide, "captures" | "closeUps" | "closeUpMm"> {
  const planes = written.map(({ plane }) => plane);
  const pxPerMm = planePxPerMm(canvas);
  const { leftMm, topMm } = canvas;
  const closeUpMm = closeUpSideMm(written.map(({ laid }) => laid));
  const reference = written.find(({ laid }) => laid.captureId === referenceId)?.plane;
  const places = placesInPicture(
    planes,
    pictureMm ?? { left: 0, top: 0, right: sheetMm.widthMm, bottom: sheetMm.heightMm },
    canvas,
    pxPerMm,
  );
  return {
    captures: written.map(({ laid, plane }) => ({
      ...laid,
      toneCurve: reference && reference !== plane ? toneCurve(soft(plane), soft(reference), places) : null,
      lightnessShares: lightnessShares(plane, places),
    })),
    closeUps: planes.length > 1 ? closeUpPlaces({ planes, pxPerMm, leftMm, topMm, sheetMm, pictureMm }, closeUpMm) : [],
    closeUpMm,
  };
}

/** Tones are compared where neither sharpness nor a small shift counts. */
const soft = (plane: GridPlane) => blurred(plane, 2);

/** Two pixels of the screen to one of the finest capture; whole millimetres. */
const closeUpSideMm = (laid: readonly Pick<LaidCapture, "pxPerMm">[]) =>
  Math.round(Math.min(16, Math.max(4, 240 / Math.max(...laid.map(({ pxPerMm }) => pxPerMm)))));

const EDGE_MM = 1;

/** Places inside the picture that every capture shows. */
function placesInPicture(planes: readonly GridPlane[], picture: BoxMm, { leftMm, topMm }: Canvas, pxPerMm: number): Int32Array {
  return commonPlaces(planes, 0).filter((at) => {
    const width = planes[0]?.width ?? 1;
    const [x, y] = [((at % width) + 0.5) / pxPerMm - leftMm, (Math.floor(at / width) + 0.5) / pxPerMm - topMm];
    return x > picture.left + EDGE_MM && x < picture.right - EDGE_MM && y > picture.top + EDGE_MM && y < picture.bottom - EDGE_MM;
  });
}

/** About 200 pixels per inch: fine detail begins to show. */
const PLANE_PX_PER_MM = 8;
/** Bounds the memory: 4 bytes each, for every capture. */
const MOST_PLANE_PX = 2e6;

/** Pixels to the mm of a canvas in small: a whole number, so that its sides are whole too. */
export const planePxPerMm = ({ widthMm, heightMm }: Canvas) =>
  Math.max(1, Math.floor(Math.min(PLANE_PX_PER_MM, Math.sqrt(MOST_PLANE_PX / (widthMm * heightMm)))));
