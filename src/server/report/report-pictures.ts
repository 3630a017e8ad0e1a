import type { Side } from "#domain/capture/capture.ts";
import type { ConditionReport } from "#domain/condition/condition-report.ts";
import { findPhotograph } from "#drizzle/queries/finding-photographs.ts";
import type { Context } from "../context.ts";
import { derivedOriginal } from "../images/derived-picture.ts";
import { sharp } from "../images/policy.ts";
import { sidePicture } from "../images/side-picture.ts";
import { canBeShown, sideToShow } from "../images/side-to-show.ts";

/** JPEGs for paper. What cannot be read is not among them. */
export type ReportPictures = {
  readonly sides: ReadonlyMap<Side, Buffer>;
  /** by photograph */
  readonly photographs: ReadonlyMap<number, Buffer>;
};

/** Sharp enough for half the width of a sheet. */
const PHOTOGRAPH_PX = 1000;

export async function reportPictures(context: Context, { print, sides, photographs }: ConditionReport): Promise<ReportPictures> {
  const ofSides = new Map<Side, Buffer>();
  for (const { side } of sides) {
    const shown = sideToShow(context, print, side);
    const jpeg = canBeShown(shown) ? await sidePicture(context, shown) : null;
    if (jpeg) ofSides.set(side, jpeg);
  }
  const ofPhotographs = new Map<number, Buffer>();
  for (const { id } of [...photographs.values()].flat()) {
    const original = findPhotograph(context.db, id)?.original;
    const view = original && (await derivedOriginal(context, original, "view.jpg"));
    if (!view) continue;
    const fitted = sharp(view).resize({ width: PHOTOGRAPH_PX, height: PHOTOGRAPH_PX, fit: "inside", withoutEnlargement: true });
    ofPhotographs.set(id, await fitted.jpeg().toBuffer());
  }
  return { sides: ofSides, photographs: ofPhotographs };
}
