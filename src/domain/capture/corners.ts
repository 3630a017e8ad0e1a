import { cornersOf, isConvex, lengthOf, SIDES } from "../measure/lines.ts";
import type { FrameSize } from "../measure/marked-area.ts";
import type { Quad } from "../measure/picture.ts";

/** Shorter sides show no print that could be measured. */
const SHORTEST_SIDE_PX = 20;

/** Why four corners set by a person are no outline of a sheet, and what to do; null where they are one. */
export function whyNoOutline(corners: Quad, { widthPx, heightPx }: FrameSize): { happened: string; remedy: string } | null {
  const isIn = cornersOf(corners).every(({ x, y }) => x >= -0.5 && y >= -0.5 && x <= widthPx - 0.5 && y <= heightPx - 0.5);
  if (!isIn)
    return {
      happened: "A corner lies outside the picture.",
      remedy: `Give numbers from 0 to ${widthPx - 1} across and from 0 to ${heightPx - 1} down.`,
    };
  if (!isConvex(corners))
    return {
      happened: "The sides cross each other or bend inwards.",
      remedy: "Set the corners in their order: top left, top right, bottom right, bottom left, as the picture shows them.",
    };
  if (SIDES.some((side) => lengthOf(corners, side) < SHORTEST_SIDE_PX))
    return { happened: "The outline is too small.", remedy: `Make every side at least ${SHORTEST_SIDE_PX} pixels long.` };
  return null;
}
