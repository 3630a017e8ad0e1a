import { linesOf } from "../lines.ts";
import type { Picture } from "../picture.ts";
import { pixelsIn, type RowSpans, spansInside, wholeFrame } from "../planes/row-spans.ts";
import type { Outline } from "../reading.ts";

/** The pixels that stand for what the print shows. */
export type PictureArea = {
  readonly of: "picture" | "sheet" | "frame";
  readonly spans: RowSpans;
  readonly pixels: number;
  /** for the keeper, where it is not the picture alone; no capital, no full stop */
  readonly note?: string;
};

const FEWEST_PIXELS = 16;

/** Several measures read the same area: it is worked out once for each picture. */
const known = new WeakMap<Picture, { readonly outline: Outline | null; readonly area: PictureArea }>();

/** The picture without its blurred rim; else the sheet; else the frame. */
export function pictureArea(picture: Picture, outline: Outline | null): PictureArea {
  const before = known.get(picture);
  if (before && before.outline === outline) return before.area;
  const area = areaIn(picture, outline);
  known.set(picture, { outline, area });
  return area;
}

function areaIn({ widthPx, heightPx }: Picture, outline: Outline | null): PictureArea {
  if (outline) {
    const rimPx = 2 + 2 * outline.cornerSpreadPx;
    const spans = spansInside(linesOf(outline.image ?? outline.sheet), rimPx, widthPx, heightPx);
    const pixels = pixelsIn(spans);
    if (pixels >= FEWEST_PIXELS) {
      if (outline.image) return { of: "picture", spans, pixels };
      return { of: "sheet", spans, pixels, note: "the border could not be told from the picture, so the whole sheet was read" };
    }
  }
  const note = "the print was not found in the frame, so the whole frame was read, ground included";
  return { of: "frame", spans: wholeFrame(widthPx, heightPx), pixels: widthPx * heightPx, note };
}
