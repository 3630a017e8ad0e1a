import type { DemoPrint } from "./demo-print.ts";
import { EARLY_PRINTS } from "./early.ts";
import { GALLERY_PRINTS } from "./gallery.ts";
import { INSTANT_PRINTS } from "./instant.ts";
import { LABORATORY_PRINTS } from "./laboratory.ts";

/** Every print of the invented family and of the gallery. */
export const FAMILY: readonly DemoPrint[] = [...EARLY_PRINTS, ...INSTANT_PRINTS, ...LABORATORY_PRINTS, ...GALLERY_PRINTS];
