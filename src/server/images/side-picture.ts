import { frameOf } from "#domain/capture/capture.ts";
import type { Quad } from "#domain/measure/picture.ts";
import type { CaptureWithOriginal } from "#drizzle/queries/captures.ts";
import type { Context } from "../context.ts";
import { derivedPicture } from "./derived-picture.ts";
import { straighten } from "./straighten.ts";

/** A sheet in a capture, and the size in which it is shown. */
export type SheetToShow = {
  readonly capture: CaptureWithOriginal;
  readonly quad: Quad;
  readonly size: { readonly widthPx: number; readonly heightPx: number };
};

/** A sheet straightened by its corners, as JPEG; null where the capture cannot be decoded. */
export async function sidePicture(context: Context, { capture, quad, size }: SheetToShow): Promise<Buffer | null> {
  const view = await derivedPicture(context, capture, "view.jpg");
  return view && straighten(view, frameOf(capture), quad, size);
}
