import { z } from "zod";
import type { Quad } from "../measure/picture.ts";
import { quadSchema } from "../measure/quad-schema.ts";
import type { Region } from "./capture.ts";

/** Room left around a print when a bed is divided, as a share of its size: enough to see its edges (common practice, no source). */
const MARGIN = 0.03;

const basis = z.object({ outlines: z.array(quadSchema) });

/** The prints seen in a capture, in its pixels, from what its last measuring kept; none when it was not measured yet. */
export function outlinesInBasis(kept: Record<string, unknown> | null): readonly Quad[] {
  const read = basis.safeParse(kept);
  return read.success ? read.data.outlines : [];
}

/**
 * The part of an original that holds one print, with a margin, inside the frame.
 * @param within the part of the original that `outline` was found in; its pixels count from its own corner
 */
export function regionAround(outline: Quad, within: Region): Region {
  const xs = [outline.topLeft.x, outline.topRight.x, outline.bottomRight.x, outline.bottomLeft.x];
  const ys = [outline.topLeft.y, outline.topRight.y, outline.bottomRight.y, outline.bottomLeft.y];
  const across = along(Math.min(...xs), Math.max(...xs), within.width);
  const down = along(Math.min(...ys), Math.max(...ys), within.height);
  return { left: within.left + across.from, top: within.top + down.from, width: across.length, height: down.length };
}

function along(lowest: number, highest: number, limit: number): { from: number; length: number } {
  const margin = (highest - lowest) * MARGIN;
  const from = Math.min(Math.max(0, Math.floor(lowest - margin)), limit - 1);
  const to = Math.max(from + 1, Math.min(limit, Math.ceil(highest + margin) + 1));
  return { from, length: to - from };
}
