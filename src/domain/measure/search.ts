import type { Picture } from "./picture.ts";
import type { MeasureContext } from "./reading.ts";
import type { ReducedCopy } from "./reduced-copy.ts";

/** What the parts of the search for prints share. */
export type Search = { readonly picture: Picture; readonly copy: ReducedCopy; readonly context: MeasureContext };
