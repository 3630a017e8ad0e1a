import type { Picture, Quad } from "../picture.ts";
import type { MeasureContext } from "../reading.ts";
import type { ReducedCopy } from "./reduced-copy.ts";

/** Another print on the bed, px of the copy; of some the picture alone is seen, and a border is round it that is not. */
export type Beside = { readonly quad: Quad; readonly isPictureAlone: boolean };

/** What the parts of the search for prints share. */
export type Search = {
  readonly picture: Picture;
  readonly copy: ReducedCopy;
  readonly context: MeasureContext;
  /** what else lies on the bed beside the print looked at */
  readonly beside: readonly Beside[];
};
