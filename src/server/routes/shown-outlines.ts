import { z } from "zod";
import type { MeasureSet } from "#drizzle/queries/measures.ts";
import type { ShownOutline } from "#views/parts/outline-overlay.tsx";

const point = z.object({ x: z.number(), y: z.number() });
const quad = z.object({ topLeft: point, topRight: point, bottomRight: point, bottomLeft: point });
const side = z.enum(["seen", "assumed", "cut-off"]);
const sides = z.object({ top: side, right: side, bottom: side, left: side });
const kept = z.object({ found: z.array(z.object({ sheet: quad, image: quad.nullable(), sides })) });

/** Where the last measuring found prints and which of their sides it saw; none before a capture was measured. */
export function shownOutlines(set: MeasureSet | null): ShownOutline[] {
  const read = kept.safeParse(set?.basis);
  return read.success ? read.data.found : [];
}
