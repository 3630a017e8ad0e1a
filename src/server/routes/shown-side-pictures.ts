import { SIDES } from "#domain/capture/capture.ts";
import type { Print } from "#domain/print/print.ts";
import type { ShownSidePicture } from "#views/parts/marked-side.tsx";
import type { Context } from "../context.ts";
import { canBeShown, sideToShow } from "../images/side-to-show.ts";

/** The sides of a print that can be shown on its mm grid, front first. */
export const shownSidePictures = (context: Context, print: Print): ShownSidePicture[] =>
  SIDES.flatMap((side) => {
    const shown = sideToShow(context, print, side);
    if (!canBeShown(shown)) return [];
    const { sheet, size, capture } = shown;
    const { widthPx, heightPx } = size;
    return [{ side, widthMm: sheet.widthMm, heightMm: sheet.heightMm, widthPx, heightPx, captureName: capture.name }];
  });
