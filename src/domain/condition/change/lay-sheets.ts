import { type Homography, homographyFromMm, inverse, project } from "../../measure/homography.ts";
import { layCaptures, NONE_LINED_UP } from "../../measure/laying/lay-captures.ts";
import { type Laid, layFinely } from "../../measure/laying/lay-finely.ts";
import type { PrintGrid } from "../../measure/laying/print-grid.ts";
import { cornersOf, distanceTo, lengthOf, linesOf, quadOf, SIDES, type SideLines, turnedQuad } from "../../measure/lines.ts";
import type { Picture, Point, Quad } from "../../measure/picture.ts";
import type { MeasureContext, Outline } from "../../measure/reading.ts";
import { type SizeMm, sizeAsSeen } from "../../measure/size-as-seen.ts";
import { type ColourSheet, colourSheet, type PlaceOf } from "./colour-sheet.ts";

/** A capture to be held against another of the same side of the same print. */
export type SheetCapture = {
  readonly outline: Pick<Outline, "sheet" | "image"> | null;
  /** its straightened picture (print-grid.ts) */
  readonly grid: PrintGrid | null;
  readonly sizes: Pick<MeasureContext, "sheetWidthMm" | "sheetHeightMm" | "imageWidthMm" | "imageHeightMm">;
  /** decodes it; asked for twice, so that two pictures are never held at once */
  readonly picture: () => Promise<Picture | null>;
};

export const NOWHERE = 0;
export const BORDER = 1;
export const PICTURE = 2;

/** Two captures of one side on one grid: the whole sheet, as the older capture's frame shows it. */
export type LaidSheets = {
  readonly older: ColourSheet;
  readonly newer: ColourSheet;
  readonly pxPerMm: number;
  readonly sheetMm: SizeMm;
  /** the picture's corners on the sheet, mm; null where no border was told apart */
  readonly pictureMm: Quad | null;
  /** BORDER or PICTURE of every cell, a little away from their edges; NOWHERE elsewhere */
  readonly parts: Uint8Array;
  /** shifts still found between the two, middle and 95 %, mm */
  readonly residualMm: number;
  readonly residual95Mm: number;
};

/** About 200 pixels per inch: a crack of a tenth of a millimetre still shows. */
const PX_PER_MM = 8;
/** Bounds the memory: 12 bytes each, twice. */
const MOST_PX = 3e6;
const GUARD_MM = 0.8;
/** Where only the coarse alignment holds, it is good to this (lay-captures.ts refuses more). */
const COARSE_RESIDUAL_PX = 0.3;
const NO_SIZE = "the size of the sheet is not known; with its format or its measured size, the two can be held against each other";
const NO_PRINT = "the print was not found in";
const NOT_READ = "could not be read again; check that its file is there and unchanged";

/** Lays two captures on each other in colour. Answers the reason in words where that cannot be done. */
export async function laySheets(older: SheetCapture, newer: SheetCapture): Promise<LaidSheets | { readonly refused: string }> {
  if (!older.outline || !older.grid) return { refused: `${NO_PRINT} the older capture` };
  if (!newer.outline || !newer.grid) return { refused: `${NO_PRINT} the newer capture` };
  const sheetMm = sizeAsSeen(older.outline.sheet, older.outline.image, older.sizes as MeasureContext).sheet;
  if (!sheetMm) return { refused: NO_SIZE };
  const coarsely = layCaptures(
    [
      { captureId: 0, grid: older.grid },
      { captureId: 1, grid: newer.grid },
    ],
    0,
  );
  const refusal = coarsely.find((each) => "refused" in each);
  if (refusal) return { refused: refusal.refused };
  const [fixed, moved] = await layFinely(
    coarsely.filter((each) => "coarse" in each),
    (captureId) => (captureId === 0 ? older.picture() : newer.picture()),
  );
  if (!fixed || !moved?.way) return { refused: NONE_LINED_UP };
  const pxPerMm = Math.min(
    PX_PER_MM,
    sharedPxPerMm(older.outline.sheet, newer.outline.sheet, sheetMm),
    Math.sqrt(MOST_PX / (sheetMm.widthMm * sheetMm.heightMm)),
  );
  const [width, height] = [Math.round(sheetMm.widthMm * pxPerMm), Math.round(sheetMm.heightMm * pxPerMm)];
  const ofOlder = homographyFromMm(width, height, older.outline.sheet);
  const olderPicture = await older.picture();
  if (!olderPicture) return { refused: `the older capture ${NOT_READ}` };
  const sheetOfOlder = colourSheet(olderPicture, width, height, (x, y, into) => put(project(ofOlder, x + 0.5, y + 0.5), into));
  const newerPicture = await newer.picture();
  if (!newerPicture) return { refused: `the newer capture ${NOT_READ}` };
  const ofNewer = homographyFromMm(width, height, turnedQuad(newer.outline.sheet, moved.quarters));
  const sheetOfNewer = colourSheet(newerPicture, width, height, placesOfNewer(ofOlder, ofNewer, fixed, moved));
  const back = inverse(homographyFromMm(sheetMm.widthMm, sheetMm.heightMm, older.outline.sheet));
  const { image } = older.outline;
  const pictureMm = image && quadOf(cornersOf(image).map(({ x, y }) => project(back, x, y)) as [Point, Point, Point, Point]);
  const fine = moved.fine;
  return {
    older: sheetOfOlder,
    newer: sheetOfNewer,
    pxPerMm,
    sheetMm,
    pictureMm,
    parts: partsOf(width, height, pxPerMm, sheetMm, pictureMm),
    residualMm: fine ? fine.residualPx / fine.pxPerMm : COARSE_RESIDUAL_PX / (moved.pxPerMm ?? 4),
    residual95Mm: fine ? fine.residual95Px / fine.pxPerMm : (2 * COARSE_RESIDUAL_PX) / (moved.pxPerMm ?? 4),
  };
}

/** Inside the picture by its registered detail, on the border by the newer sheet's own corners. */
function placesOfNewer(ofOlder: Homography, ofNewer: Homography, fixed: Laid, moved: Laid): PlaceOf {
  const quad = fixed.grid.quad as Quad;
  const toShare = inverse(homographyFromMm(1, 1, quad));
  const { fine, way } = moved;
  return (x, y, into) => {
    const inFrame = project(ofOlder, x + 0.5, y + 0.5);
    const share = project(toShare, inFrame.x, inFrame.y);
    if (share.x < 0 || share.y < 0 || share.x > 1 || share.y > 1) put(project(ofNewer, x + 0.5, y + 0.5), into);
    else if (fine) fine.placeOf(share.x * fine.plane.width - 0.5, share.y * fine.plane.height - 0.5, into);
    else way?.(share.x, share.y, into);
  };
}

function put(point: Point, into: { x: number; y: number }): void {
  into.x = point.x;
  into.y = point.y;
}

/** As fine as the coarser of both. */
function sharedPxPerMm(older: Quad, newer: Quad, { widthMm, heightMm }: SizeMm): number {
  const of = (quad: Quad) => SIDES.reduce((sum, side) => sum + lengthOf(quad, side), 0) / (2 * (widthMm + heightMm));
  return Math.min(of(older), of(newer));
}

function partsOf(width: number, height: number, pxPerMm: number, sheetMm: SizeMm, pictureMm: Quad | null): Uint8Array {
  const lines: SideLines | null = pictureMm && linesOf(pictureMm);
  const parts = new Uint8Array(width * height);
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const place = { x: (column + 0.5) / pxPerMm, y: (row + 0.5) / pxPerMm };
      const toEdge = Math.min(place.x, place.y, sheetMm.widthMm - place.x, sheetMm.heightMm - place.y);
      if (toEdge < GUARD_MM) continue;
      const inside = lines ? Math.min(...SIDES.map((side) => distanceTo(lines[side], place))) : Number.POSITIVE_INFINITY;
      if (Math.abs(inside) >= GUARD_MM) parts[row * width + column] = inside > 0 ? PICTURE : BORDER;
    }
  }
  return parts;
}
