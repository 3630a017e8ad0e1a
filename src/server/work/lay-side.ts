import { mkdir, rename, rm, writeFile } from "node:fs/promises";
import path from "node:path";
import type { Region } from "#domain/capture/capture.ts";
import { type Canvas, canvasFor, laidPxPerMm } from "#domain/comparison/canvas.ts";
import type { LaidSide } from "#domain/comparison/laid-side.ts";
import { layOnSheet, type OnSheet } from "#domain/comparison/lay-on-sheet.ts";
import { type InSmall, lookInto, planePxPerMm } from "#domain/comparison/look-into.ts";
import { type ScreenPicture, sampleScreen } from "#domain/comparison/sample-screen.ts";
import { finestPxPerMm, type PartOfSheet, partOfFrame, placed } from "#domain/comparison/seen-in-frame.ts";
import { SRGB_LINEAR_8, SRGB_TO_XYZ_D50 } from "#domain/measure/colour/srgb.ts";
import { makeGrid, type PrintGrid } from "#domain/measure/laying/print-grid.ts";
import type { Quad } from "#domain/measure/picture.ts";
import type { GridPlane } from "#domain/measure/planes/grid-plane.ts";
import type { MeasureContext, Outline } from "#domain/measure/reading.ts";
import type { SizeMm } from "#domain/measure/size-as-seen.ts";
import { closeUpName, closeUpOfLaid } from "../images/close-up-of-laid.ts";
import { decodeReadable } from "../images/decode.ts";
import { asJpeg } from "../images/derive.ts";
import { sharp } from "../images/policy.ts";
import { readable } from "../images/readable.ts";
import { screenPicture } from "../images/screen-picture.ts";
import { writeTiles } from "../images/tiles.ts";
import { UnreadableImage } from "../images/unreadable-image.ts";
import { readGrid } from "./grid-file.ts";
import type { CaptureOfSide, Job } from "./job.ts";

type LayJob = Job & { readonly kind: "lay" };

/** Longer side of the picture of a whole sheet, for pages without a script and until tiles come. */
const WHOLE_PX = 1400;

/**
 * Lays all captures of a side on one canvas and writes each as tiles for the screen, one capture held at a time. Written into a folder
 * beside the target and renamed once whole.
 */
export async function laySide({ folder, target, making, sheetMm, captures }: LayJob): Promise<LaidSide | { readonly refused: string }> {
  await mkdir(making, { recursive: true });
  try {
    const inputs = new Inputs(captures);
    const notLaid: { captureId: number; why: string }[] = [];
    const toLay: { captureId: number; outline: Pick<Outline, "sheet" | "image">; grid: PrintGrid }[] = [];
    for (const capture of captures) {
      const found = await orWhy(() => toLayOf(capture, folder, inputs));
      if (typeof found === "string") notLaid.push({ captureId: capture.id, why: found });
      else toLay.push(found);
    }
    if (toLay.length < 2) return { refused: "fewer than two of its captures can be laid on each other" };
    const laid = await layOnSheet(toLay, sheetMm, (captureId) => inputs.pictureOrNull(captureId));
    const canvas = canvasFor(laid.sheetMm);
    const written: InSmall[] = [];
    for (const onSheet of laid.captures) {
      const one = await orWhy(() => writeLaid(making, inputs, onSheet, canvas, laid.sheetMm));
      if (typeof one === "string") notLaid.push({ captureId: onSheet.captureId, why: one });
      else written.push(one);
    }
    const { isSizeKnown, referenceId } = laid;
    const side: LaidSide = { sheetMm: laid.sheetMm, isSizeKnown, canvas, referenceId, ...lookInto(written, laid, canvas), notLaid };
    await writeCloseUps(making, side);
    await writeFile(path.join(making, "laid.json"), JSON.stringify(side));
    await rm(target, { recursive: true, force: true });
    await rename(making, target);
    return side;
  } finally {
    await rm(making, { recursive: true, force: true });
  }
}

/** The files of the captures, read again where they are needed. */
class Inputs {
  readonly #captures: ReadonlyMap<number, CaptureOfSide>;

  constructor(captures: readonly CaptureOfSide[]) {
    this.#captures = new Map(captures.map((capture) => [capture.id, capture]));
  }

  of(captureId: number): CaptureOfSide {
    return this.#captures.get(captureId) as CaptureOfSide;
  }

  async readable(captureId: number) {
    const { original } = this.of(captureId);
    return readable(original.path, original.kind);
  }

  async picture(captureId: number) {
    return decodeReadable(await this.readable(captureId), this.of(captureId).region);
  }

  async pictureOrNull(captureId: number) {
    const picture = await orWhy(() => this.picture(captureId));
    return typeof picture === "string" ? null : picture;
  }
}

/** What is known of a capture's place on the sheet; or why it cannot be laid, in words. */
async function toLayOf({ id: captureId, outline, sizes }: CaptureOfSide, folder: LayJob["folder"], inputs: Inputs) {
  if (!outline) return "the print was not found in it; set its outline on its page";
  const kept = await readGrid(folder, captureId);
  const holds = JSON.stringify(kept?.quad) === JSON.stringify(outline.image ?? outline.sheet);
  // what was derived may have been thrown away, and an outline may have been set since
  const grid = holds ? kept : makeGrid(await inputs.picture(captureId), outline, sizes as MeasureContext);
  return grid ? { captureId, outline, grid } : "the print is too small in it";
}

/** A file that cannot be read keeps the others from nothing. */
async function orWhy<T>(make: () => Promise<T>): Promise<T | string> {
  try {
    return await make();
  } catch (error) {
    if (error instanceof UnreadableImage) return `its file ${error.trouble} ${error.remedy}`;
    throw error;
  }
}

async function writeLaid(making: string, inputs: Inputs, onSheet: OnSheet, canvas: Canvas, sheetMm: SizeMm): Promise<InSmall> {
  const { captureId, placeOf, ...told } = onSheet;
  const ownPxPerMm = finestPxPerMm(placeOf, sheetMm);
  const pxPerMm = laidPxPerMm(ownPxPerMm, canvas);
  const { frame } = inputs.of(captureId);
  const part = partOfFrame(placeOf, onCanvas(canvas), frame);
  const reducedBy = Math.min(1, pxPerMm / ownPxPerMm);
  const made = { widthPx: Math.ceil(part.width * reducedBy), heightPx: Math.ceil(part.height * reducedBy) };
  const source = await screenPicture(
    await inputs.readable(captureId),
    { ...part, left: frame.left + part.left, top: frame.top + part.top },
    made,
  );
  const laid = sampleScreen(
    source,
    (x, y, into) => {
      placeOf((x + 0.5) / pxPerMm - canvas.leftMm, (y + 0.5) / pxPerMm - canvas.topMm, into);
      into.x = ((into.x - part.left + 0.5) * source.widthPx) / part.width - 0.5;
      into.y = ((into.y - part.top + 0.5) * source.heightPx) / part.height - 0.5;
    },
    canvas.widthMm * pxPerMm,
    canvas.heightMm * pxPerMm,
  );
  await writeTiles(making, String(captureId), laid);
  await writeFile(path.join(making, `${captureId}.jpg`), await wholeOf(laid));
  return {
    laid: { captureId, ...told, ownPxPerMm, pxPerMm, sheetInFrame: cornersInFrame(onSheet, sheetMm) },
    plane: await planeOf(laid, canvas, onSheet, frame),
  };
}

async function writeCloseUps(making: string, side: LaidSide): Promise<void> {
  for (const capture of side.captures) {
    for (const place of side.closeUps) {
      const picture = await closeUpOfLaid(making, side, capture, place, null);
      if (picture) await writeFile(path.join(making, closeUpName(capture.captureId, place.kind)), picture);
    }
  }
}

/** Linear luminance of a laid capture, reduced; NaN where its frame ends. */
async function planeOf({ widthPx, heightPx, codes }: ScreenPicture, canvas: Canvas, onSheet: OnSheet, frame: Region): Promise<GridPlane> {
  const pxPerMm = planePxPerMm(canvas);
  const [width, height] = [canvas.widthMm * pxPerMm, canvas.heightMm * pxPerMm];
  const small = await sharp(codes, { raw: { width: widthPx, height: heightPx, channels: 3 } })
    .resize(width, height, { fit: "fill" })
    .raw()
    .toBuffer();
  const [red, green, blue] = SRGB_TO_XYZ_D50.slice(3, 6) as [number, number, number];
  const light = (code: number | undefined) => SRGB_LINEAR_8[code as number] as number;
  const data = Float32Array.from({ length: width * height }, (_, at) => {
    const { x, y } = placed(
      onSheet.placeOf,
      ((at % width) + 0.5) / pxPerMm - canvas.leftMm,
      (Math.floor(at / width) + 0.5) / pxPerMm - canvas.topMm,
    );
    if (x < 0 || y < 0 || x > frame.width - 1 || y > frame.height - 1) return Number.NaN;
    return red * light(small[3 * at]) + green * light(small[3 * at + 1]) + blue * light(small[3 * at + 2]);
  });
  return { width, height, data };
}

const wholeOf = ({ widthPx, heightPx, codes }: ScreenPicture) =>
  asJpeg(
    sharp(codes, { raw: { width: widthPx, height: heightPx, channels: 3 } }).resize(WHOLE_PX, WHOLE_PX, {
      fit: "inside",
      withoutEnlargement: true,
    }),
  );

const onCanvas = ({ widthMm, heightMm, leftMm, topMm }: Canvas): PartOfSheet => ({
  left: -leftMm,
  top: -topMm,
  right: widthMm - leftMm,
  bottom: heightMm - topMm,
});

const cornersInFrame = (onSheet: OnSheet, { widthMm, heightMm }: SizeMm): Quad => ({
  topLeft: placed(onSheet.placeOf, 0, 0),
  topRight: placed(onSheet.placeOf, widthMm, 0),
  bottomRight: placed(onSheet.placeOf, widthMm, heightMm),
  bottomLeft: placed(onSheet.placeOf, 0, heightMm),
});
