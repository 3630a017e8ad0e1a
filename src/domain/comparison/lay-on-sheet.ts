import { homographyFromMm, inverse, project } from "../measure/homography.ts";
import { layCaptures, NONE_LINED_UP } from "../measure/laying/lay-captures.ts";
import { type Laid, layFinely } from "../measure/laying/lay-finely.ts";
import type { PrintGrid } from "../measure/laying/print-grid.ts";
import { cornersOf, eachCorner, lengthOf } from "../measure/lines.ts";
import { ownQuad } from "../measure/outline/own-quad.ts";
import type { Picture, Quad } from "../measure/picture.ts";
import type { Outline } from "../measure/reading.ts";
import type { SizeMm } from "../measure/size-as-seen.ts";
import type { BoxMm } from "./close-up-places.ts";

/** A capture of one side of a print, to be laid on the sheet with others. */
export type CaptureToLay = {
  readonly captureId: number;
  readonly outline: Pick<Outline, "sheet" | "image">;
  /** its straightened picture (print-grid.ts) */
  readonly grid: PrintGrid;
};

/**
 * What a capture is laid by: the reference by its own corners, others by detail followed over the whole picture, by the coarse grid,
 * or by their own corners alone where they could not be lined up.
 */
export type LaidBy = "reference" | "detail" | "coarse" | "corners";

export type OnSheet = {
  readonly captureId: number;
  readonly laidBy: LaidBy;
  /** why no detail could be followed, in words for the keeper */
  readonly why: string | null;
  /** shifts still found against the reference, middle and 95 %, mm; null where they are not known */
  readonly residualMm: number | null;
  readonly residual95Mm: number | null;
  /** writes where a place of the sheet (mm from the print's own top left; it may lie outside) is in the frame, px */
  readonly placeOf: (xMm: number, yMm: number, into: { x: number; y: number }) => void;
};

export type SheetLaid = {
  readonly sheetMm: SizeMm;
  /** false where nobody knows the size: the longer side is then taken for 100 mm */
  readonly isSizeKnown: boolean;
  readonly referenceId: number;
  /** where the reference's picture lies on the sheet; null where no border was told apart in it */
  readonly pictureMm: BoxMm | null;
  /** in the order given */
  readonly captures: readonly OnSheet[];
};

const ASSUMED_LONG_SIDE_MM = 100;

/**
 * Lays captures of one side of a print on the mm grid of its sheet, so that a place of the print is found in each of them. The one
 * most like all others keeps its corners; the others follow it by their own pixels (lay-captures.ts, lay-finely.ts).
 * @param pictureOf decodes a capture; null where that cannot be done
 */
export async function layOnSheet(
  captures: readonly CaptureToLay[],
  knownSheetMm: SizeMm | null,
  pictureOf: (captureId: number) => Promise<Picture | null>,
): Promise<SheetLaid> {
  const sized = captures.map((capture) => ({ ...capture, grid: scaledGrid(capture, knownSheetMm ?? assumedSheet(capture.outline.sheet)) }));
  const coarsely = layCaptures(sized);
  const reference = coarsely.find((each) => "coarse" in each && each.isReference) ?? coarsely[0];
  const fixed = captures.find(({ captureId }) => captureId === reference?.captureId) as CaptureToLay;
  const sheetMm = knownSheetMm ?? assumedSheet(fixed.outline.sheet);
  const finely = await layFinely(
    coarsely.filter((each) => "coarse" in each),
    pictureOf,
  );
  return {
    sheetMm,
    isSizeKnown: knownSheetMm !== null,
    referenceId: fixed.captureId,
    pictureMm: fixed.outline.image && boxOnSheet(fixed.outline.image, ownQuad(fixed.outline, sheetMm), sheetMm),
    captures: captures.map((capture, index) => {
      if (capture === fixed) return { ...byCorners(capture, sheetMm, null), laidBy: "reference", residualMm: 0, residual95Mm: 0 };
      const laid = finely.find(({ captureId }) => captureId === capture.captureId);
      const refused = coarsely[index];
      if (laid?.way && fixed.grid.quad) return following(capture, laid, fixed.grid.quad, ownQuad(fixed.outline, sheetMm), sheetMm);
      return byCorners(capture, sheetMm, refused && "refused" in refused ? refused.refused : NONE_LINED_UP);
    }),
  };
}

function byCorners({ captureId, outline }: CaptureToLay, sheetMm: SizeMm, why: string | null): OnSheet {
  const map = homographyFromMm(sheetMm.widthMm, sheetMm.heightMm, ownQuad(outline, sheetMm));
  const placeOf = (x: number, y: number, into: { x: number; y: number }) => void Object.assign(into, project(map, x, y));
  return { captureId, laidBy: "corners", why, residualMm: null, residual95Mm: null, placeOf };
}

/**
 * Inside the picture by what was registered there. Beyond the outermost places that were followed, the nearest of them goes on along the
 * plane through all: a surface of shifts must not be followed to where nothing fixed it, and found corners are not as exact.
 */
function following(capture: CaptureToLay, laid: Laid, quadOfFixed: Quad, sheetOfFixed: Quad, { widthMm, heightMm }: SizeMm): OnSheet {
  const toFixed = homographyFromMm(widthMm, heightMm, sheetOfFixed);
  const toShare = inverse(homographyFromMm(1, 1, quadOfFixed));
  const inPicture = registeredPlaces(laid);
  const plane = planeThrough(inPicture);
  const inset = insetOf(laid);
  const placeOf = (x: number, y: number, into: { x: number; y: number }) => {
    const inFixed = project(toFixed, x, y);
    const share = project(toShare, inFixed.x, inFixed.y);
    const [across, down] = [within(share.x, inset.across), within(share.y, inset.down)];
    inPicture(across, down, into);
    if (across === share.x && down === share.y) return;
    const [there, edge] = [plane(share.x, share.y), plane(across, down)];
    into.x += there.x - edge.x;
    into.y += there.y - edge.y;
  };
  const { fine, pxPerMm, notFine } = laid;
  return {
    captureId: capture.captureId,
    laidBy: fine ? "detail" : "coarse",
    why: fine ? null : notFine,
    residualMm: fine ? fine.residualPx / fine.pxPerMm : COARSE_RESIDUAL_PX / (pxPerMm ?? 1),
    residual95Mm: fine ? fine.residual95Px / fine.pxPerMm : null,
    placeOf,
  };
}

const within = (share: number, inset: number) => Math.min(1 - inset, Math.max(inset, share));

/** Shares of the picture. */
function insetOf({ fine }: Laid): { readonly across: number; readonly down: number } {
  if (!fine) return { across: 0, down: 0 };
  return { across: fine.insetPx / fine.plane.width, down: fine.insetPx / fine.plane.height };
}

/** lay-captures.ts refuses more. */
const COARSE_RESIDUAL_PX = 0.3;

const INNER = 0.25;

/** The plane through four places well inside the picture, over shares of it. */
function planeThrough(inPicture: (across: number, down: number, into: { x: number; y: number }) => void) {
  const at = (across: number, down: number) => {
    const into = { x: 0, y: 0 };
    inPicture(across, down, into);
    return into;
  };
  const [near, far] = [INNER, 1 - INNER];
  const map = homographyFromMm(far - near, far - near, {
    topLeft: at(near, near),
    topRight: at(far, near),
    bottomRight: at(far, far),
    bottomLeft: at(near, far),
  });
  return (across: number, down: number) => project(map, across - near, down - near);
}

/** Of all that was laid finely only this is kept: the planes are let go. */
function registeredPlaces({ fine, way }: Laid): (across: number, down: number, into: { x: number; y: number }) => void {
  if (!fine) return way as NonNullable<Laid["way"]>;
  const {
    placeOf,
    plane: { width, height },
  } = fine;
  return (across, down, into) => placeOf(across * width - 0.5, down * height - 0.5, into);
}

/** The grid with its scale from the sheet's corners: the size of the picture itself is often not known. */
function scaledGrid({ outline, grid }: CaptureToLay, sheetMm: SizeMm): PrintGrid {
  if (!grid.quad) return grid;
  const toMm = inverse(homographyFromMm(sheetMm.widthMm, sheetMm.heightMm, ownQuad(outline, sheetMm)));
  const inMm = eachCorner(grid.quad, ({ x, y }) => project(toMm, x, y));
  const across = (lengthOf(inMm, "top") + lengthOf(inMm, "bottom")) / 2;
  const down = (lengthOf(inMm, "left") + lengthOf(inMm, "right")) / 2;
  return { ...grid, pxPerMm: (grid.widthPx / across + grid.heightPx / down) / 2 };
}

/** Upright, whichever way round the picture's corners are named. */
function boxOnSheet(image: Quad, sheet: Quad, { widthMm, heightMm }: SizeMm): BoxMm {
  const toMm = inverse(homographyFromMm(widthMm, heightMm, sheet));
  const corners = cornersOf(image).map(({ x, y }) => project(toMm, x, y));
  const [xs, ys] = [corners.map(({ x }) => x), corners.map(({ y }) => y)].map((values) => values.sort((a, b) => a - b)) as [
    number[],
    number[],
  ];
  const mean = (values: number[], from: number) => ((values[from] as number) + (values[from + 1] as number)) / 2;
  return { left: mean(xs, 0), top: mean(ys, 0), right: mean(xs, 2), bottom: mean(ys, 2) };
}

function assumedSheet(sheet: Quad): SizeMm {
  const [across, down] = [lengthOf(sheet, "top") + lengthOf(sheet, "bottom"), lengthOf(sheet, "left") + lengthOf(sheet, "right")];
  const mmPerPx = ASSUMED_LONG_SIDE_MM / Math.max(across, down);
  return { widthMm: across * mmPerPx, heightMm: down * mmPerPx };
}
