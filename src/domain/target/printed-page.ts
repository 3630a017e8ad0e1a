import { targetLayout } from "./layout.ts";

/** Half the slant of an edge's two ends over its length: 5°, as slanted-edge methods ask for (ISO 12233:2014: about 5°). */
export const SLANT_DEGREES = 5;
const EDGE_MM = 22;
const FIELD_MM = 10;

/** Where the middle of each pair of edges lies on the page, so that the corners and the middle of the frame are seen. */
const PLACES = [
  { name: "top-left", x: 32, y: 32 },
  { name: "top-right", x: 148, y: 32 },
  { name: "middle", x: 90, y: 125 },
  { name: "bottom-left", x: 32, y: 218 },
  { name: "bottom-right", x: 148, y: 218 },
] as const;

const square = (id: string, x: number, y: number, sideMm: number) => ({
  id,
  leftMm: x - sideMm / 2,
  topMm: y - sideMm / 2,
  widthMm: sideMm,
  heightMm: sideMm,
});

/**
 * The page that the program prints: pairs of slanted edges in the corners and the middle, plain paper between them, and rulers. The
 * sheet that is measured is the black frame's outer rim, 180 × 250 mm, which fits on A4 and on Letter.
 */
export const PRINTED_PAGE = targetLayout.parse({
  name: "Printed page",
  sheet: { widthMm: 180, heightMm: 250 },
  edges: PLACES.flatMap(({ name, x, y }) => [square(`${name}-across`, x - 13, y, EDGE_MM), square(`${name}-down`, x + 13, y, EDGE_MM)]),
  patches: [
    square("paper-1", 90, 32, FIELD_MM),
    square("paper-2", 32, 125, FIELD_MM),
    square("paper-3", 148, 125, FIELD_MM),
    square("paper-4", 90, 218, FIELD_MM),
    square("paper-5", 90, 75, FIELD_MM),
    square("paper-6", 90, 175, FIELD_MM),
  ],
  neutrals: ["paper-1", "paper-2", "paper-3", "paper-4", "paper-5", "paper-6"],
  field: ["paper-1", "paper-2", "paper-3", "paper-4", "paper-5", "paper-6"],
});
