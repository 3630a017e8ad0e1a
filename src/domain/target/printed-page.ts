import { type Placed, targetLayout } from "./layout.ts";

/** Lean of the edges: about 5°, as slanted-edge methods ask for (ISO 12233:2014). */
const SLANT_DEGREES = 5;
/** How far a sheet cut by hand may be off its size (own estimate). */
export const CUT_SIZE_DOUBT_MM = 0.5;
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
 * The page that the program prints: pairs of slanted edges in the corners and the middle, plain paper between them, and a ruler. The
 * sheet that is measured is the paper cut along its line, 180 × 250 mm.
 */
export const PRINTED_PAGE = targetLayout.parse({
  name: "Printed page",
  sheet: { widthMm: 180, heightMm: 250 },
  sheetDoubtMm: CUT_SIZE_DOUBT_MM,
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
  softEdges: true,
  field: ["paper-1", "paper-2", "paper-3", "paper-4", "paper-5", "paper-6"],
});
/** A ruler of whole millimetres, from its left end, by which the printed size is checked. */
export const RULER = { leftMm: 40, topMm: 150, lengthMm: 100 } as const;

/** The dark half of an edge's box, as a polygon in mm; “…-down” is dark above, the others at the left. */
export function darkHalf({ id, leftMm, topMm, widthMm, heightMm }: Placed): readonly (readonly [x: number, y: number])[] {
  const lean = Math.tan((SLANT_DEGREES * Math.PI) / 180) / 2;
  const [right, bottom] = [leftMm + widthMm, topMm + heightMm];
  const [middleX, middleY] = [leftMm + widthMm / 2, topMm + heightMm / 2];
  return id.endsWith("-down")
    ? [
        [leftMm, topMm],
        [right, topMm],
        [right, middleY + lean * widthMm],
        [leftMm, middleY - lean * widthMm],
      ]
    : [
        [leftMm, topMm],
        [middleX - lean * heightMm, topMm],
        [middleX + lean * heightMm, bottom],
        [leftMm, bottom],
      ];
}
