import { z } from "zod";
import type { MarkedArea } from "./marked-area.ts";
import { isPresent, type Reading } from "./reading.ts";

const share = z.number();
const marked = z.object({
  of: z.enum(["sheet", "picture"]),
  places: z.array(z.object({ left: share, top: share, width: share, height: share })),
});

/** Where a reading found what it counts: its area where that is known, else the boxes round its places; none where it marks neither. */
export function markedAreasOf(reading: Reading): readonly MarkedArea[] {
  if (!isPresent(reading)) return [];
  if (reading.area) return reading.area;
  const read = marked.safeParse(reading.detail);
  return read.success && read.data.places.length > 0 ? [{ of: read.data.of, loops: read.data.places.map(boxLoop) }] : [];
}

const boxLoop = ({ left, top, width, height }: z.infer<typeof marked>["places"][number]) => [
  { x: left, y: top },
  { x: left + width, y: top },
  { x: left + width, y: top + height },
  { x: left, y: top + height },
];
