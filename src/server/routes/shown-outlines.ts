import { z } from "zod";
import type { Outline } from "#domain/measure/reading.ts";
import type { MeasureSet } from "#drizzle/queries/measures.ts";
import type { ShownOutline } from "#views/parts/outline-overlay.tsx";

const point = z.object({ x: z.number(), y: z.number() });
const quad = z.object({ topLeft: point, topRight: point, bottomRight: point, bottomLeft: point });
const side = z.enum(["seen", "assumed", "cut-off"]);
const sides = z.object({ top: side, right: side, bottom: side, left: side });
const radial = z.number().optional();
const isSaid = z.boolean().optional();
const kept = z.object({
  found: z.array(z.object({ sheet: quad, image: quad.nullable(), sides, cornerSpreadPx: z.number().optional(), radial, isSaid })),
});

/** Where the last measuring found prints and which of their sides it saw; none before a capture was measured. */
export function shownOutlines(set: MeasureSet | null): ShownOutline[] {
  const read = kept.safeParse(set?.basis);
  return read.success ? read.data.found : [];
}

/** The same with how sure the corners are; those kept without it are left out. */
export function keptOutlines(set: MeasureSet | null): Outline[] {
  const read = kept.safeParse(set?.basis);
  return read.success
    ? read.data.found.flatMap(({ cornerSpreadPx, ...rest }) => (cornerSpreadPx === undefined ? [] : [{ ...rest, cornerSpreadPx }]))
    : [];
}
