import { outlinesInBasis } from "#domain/capture/bed.ts";
import { listTray } from "#drizzle/queries/captures.ts";
import { findMeasureSet } from "#drizzle/queries/measures.ts";
import { findPrintByNumber } from "#drizzle/queries/prints.ts";
import { readDemoManifest } from "../../../demo-collection/read-manifest.ts";
import type { Context } from "../context.ts";
import { divideBed } from "./divide-bed.ts";

/** The bed that the demo divides itself; another one waits in the tray for the keeper to try. */
const BED = "bed-1.jpg";

/**
 * Divides the demo's first bed among its prints, once it has been measured. Left alone where the
 * keeper divided it, or where not as many prints were found as lie on it.
 * @returns how many captures it became: 0 when nothing was done
 */
export function divideDemoBed(context: Context): number {
  const bed = listTray(context.db).find(({ original, divided, region }) => original.originalName === BED && !divided && region === null);
  const shown = readDemoManifest().captures.find(({ file }) => file === BED)?.prints ?? [];
  if (!bed) return 0;
  const outlines = outlinesInBasis(findMeasureSet(context.db, bed.id, "alone")?.basis ?? null);
  if (outlines.length !== shown.length) return 0;
  const parts = shown.map((number, outline) => ({ outline, printId: findPrintByNumber(context.db, number)?.id ?? null }));
  const outcome = divideBed(context, { captureId: bed.id, parts });
  return outcome.ok ? outcome.value.captureIds.length : 0;
}
