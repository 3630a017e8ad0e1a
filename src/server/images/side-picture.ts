import { frameOf } from "#domain/capture/capture.ts";
import type { Context } from "../context.ts";
import { derivedPicture } from "./derived-picture.ts";
import type { SideToShow } from "./side-to-show.ts";
import { straighten } from "./straighten.ts";

/** A side of a print on its own mm grid, as JPEG; null where the capture cannot be decoded. */
export async function sidePicture(context: Context, { capture, quad, size }: SideToShow): Promise<Buffer | null> {
  const view = await derivedPicture(context, capture, "view.jpg");
  return view && straighten(view, frameOf(capture), quad, size);
}
