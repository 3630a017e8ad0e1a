import { type Border, borderOf, meanPxPerMm } from "../border/border.ts";
import { borderStrips } from "../border/border-strips.ts";
import { homographyFromMm, inverse, project } from "../homography.ts";
import { distanceTo, lengthOf, SIDES } from "../lines.ts";
import { type MarkedArea, markedArea } from "../marked-area.ts";
import type { Picture, Point } from "../picture.ts";
import type { MeasureContext, Outline, Reading } from "../reading.ts";
import { sizeAsSeen } from "../size-as-seen.ts";
import { findSpecks, type Speck } from "./specks.ts";

/**
 * Dust, hairs and scratches on the plain border (specks.ts), each apart from the others by its shape: a line is at
 * least 0.8 mm long, five times as long as wide and at most 0.3 mm wide, a scratch where it is straight, a hair where it
 * bends; straight lines along the frame's own columns or rows, and lines along an edge of the print close to it, are left out, since
 * streaks and shadows run so; what is not larger than 1.5 mm and no line is dust. Larger marks and groups of strokes are stains or writing.
 *
 * `dustPerCm2`: specks of dust per cm² of border; spread: the square root of their number. `scratchLengthMm`: length of
 * the longest line, hair or scratch; nought where none was seen. Whether they lie on the print or on the glass is not
 * told by one capture. Inside the picture nothing is looked for: specks of the picture itself look the same.
 *
 * Needs: 2 cm² of border. Specks smaller than three cells (a cell: 1/18 to 1/9 mm, or the pixel) are not seen: both are "at least".
 * Not comparable when: the sampling is below 300 ppi in one and above in the other.
 * Source: own; elongation above 5 for hairs and scratches: common practice, no source.
 */
export function dust(picture: Picture, outline: Outline | null, context: MeasureContext): Reading[] {
  if (!outline) return allAbsent("the print was not found in the frame");
  const border = borderOf(outline, context);
  if (!border) return allAbsent(`no plain border of at least 2 mm was seen; ${MOVED}`);
  const framePxPerMm = meanPxPerMm(outline, context);
  const factor = Math.max(1, Math.floor(framePxPerMm / CELLS_PER_MM));
  const pxPerMm = framePxPerMm / factor;
  const strips = borderStrips(picture, border, factor);
  const areaCm2 = strips.reduce((sum, { cells }) => sum + cells, 0) / pxPerMm ** 2 / 100;
  if (areaCm2 < LEAST_CM2) return allAbsent(`too little of a plain border could be read; ${MOVED}`);
  const toMm = placer(outline, context, framePxPerMm);
  const found = strips.flatMap(({ plane, toFrame }) =>
    findSpecks(plane).map((speck): Placed => {
      const middle = toFrame(speck.x, speck.y);
      const shape = shapeOf(speck, pxPerMm);
      const isOfOther =
        (shape.kind === "scratch" && runsAlongFrame(speck)) ||
        (isLine(shape) && runsAlongEdge(border, middle, toFrame, speck, EDGE_MM * framePxPerMm));
      const pixels = speck.core.map((at) => toFrame(at % plane.width, Math.floor(at / plane.width)));
      return { ...toMm(middle.x, middle.y), ...shape, pixels, ...(isOfOther && { kind: "mark" }) };
    }),
  );
  const alone = withoutGroups(found);
  const specks = alone.filter(({ kind }) => kind === "dust");
  const lines = alone.filter(isLine).sort((a, b) => b.lengthMm - a.lengthMm);
  const common = { reliability: areaCm2 >= FIRM_CM2 ? ("firm" as const) : ("fair" as const), bound: "lower" as const, note: NOTE };
  return [
    {
      name: "dustPerCm2",
      value: specks.length / areaCm2,
      spread: Math.sqrt(Math.max(1, specks.length)) / areaCm2,
      ...common,
      detail: {
        borderCm2: areaCm2,
        specks: specks.length,
        areaPercent: specks.reduce((sum, { areaMm2 }) => sum + areaMm2, 0) / areaCm2,
        largerMarks: found.length - specks.length - lines.length,
        largest: specks
          .sort((a, b) => b.areaMm2 - a.areaMm2)
          .slice(0, MOST_LISTED)
          .map(listed),
      },
      area: [areaOf(specks, picture, factor)],
    },
    {
      name: "scratchLengthMm",
      value: lines[0]?.lengthMm ?? 0,
      ...common,
      detail: { lines: lines.slice(0, MOST_LISTED).map(listed) },
      area: [areaOf(lines, picture, factor)],
    },
  ];
}

/** At least; up to twice as many. */
const CELLS_PER_MM = 9;
const LEAST_CM2 = 2;
const FIRM_CM2 = 10;
const MOST_LISTED = 12;
const LEAST_ELONGATION = 5;
const SHORTEST_LINE_MM = 0.8;
const WIDEST_LINE_MM = 0.3;
const LARGEST_SPECK_MM = 1.5;
/** A line that bulges by no more than this share of its length, or by about its own width. */
const STRAIGHT = 0.04;
const STRAIGHT_PX = 3;
/** Tangent of the angle within which a line runs along the frame, and along an edge of the print. */
const ALONG = 0.02;
/** Shorter lines do not show so small a lean: two px across in so many along still count as none. */
const LEANS_SEEN_PX = 12;
const EDGE_SLOPE = 0.1;
const EDGE_MM = 1.8;
/** Strokes of writing stand close together; dust rarely does. */
const GROUP_MM = 1.2;
const FEWEST_OF_A_GROUP = 5;
const MOVED = "a second capture with the print moved on the glass would tell dust of the glass from marks of the print";
const NOTE = "Read on the border only. Whether it lies on the print or on the glass, another capture with the print moved would tell.";

const allAbsent = (absent: string): Reading[] => (["dustPerCm2", "scratchLengthMm"] as const).map((name) => ({ name, absent }));

export type Shape = {
  readonly kind: "dust" | "hair" | "scratch" | "mark";
  readonly lengthMm: number;
  readonly areaMm2: number;
  readonly isDark: boolean;
};
type Placed = Shape & { readonly xMm: number; readonly yMm: number; readonly pixels: readonly Point[] };

export function shapeOf({ areaPx, lengthPx, bowPx, isDark }: Speck, pxPerMm: number): Shape {
  const lengthMm = lengthPx / pxPerMm;
  const widthMm = areaPx / lengthPx / pxPerMm;
  const isLine = lengthMm >= SHORTEST_LINE_MM && lengthMm > LEAST_ELONGATION * widthMm && widthMm <= WIDEST_LINE_MM;
  const kind = isLine
    ? bowPx <= Math.max(STRAIGHT_PX, STRAIGHT * lengthPx)
      ? "scratch"
      : "hair"
    : lengthMm <= LARGEST_SPECK_MM
      ? "dust"
      : "mark";
  return { kind, lengthMm, areaMm2: areaPx / pxPerMm ** 2, isDark };
}

export const isLine = ({ kind }: Pick<Shape, "kind">) => kind === "hair" || kind === "scratch";

/** Streaks of the device and blocks of JPEG files run so; few hairs do. */
export function runsAlongFrame({ acrossPx, downPx }: Pick<Speck, "acrossPx" | "downPx">): boolean {
  const [less, more] = [Math.abs(acrossPx), Math.abs(downPx)].sort((a, b) => a - b) as [number, number];
  return less <= ALONG * more || (more >= LEANS_SEEN_PX && less <= 2);
}

/** Near the edge of sheet or picture and along it: shadow, bevel or a misplaced outline. */
function runsAlongEdge(border: Border, middle: Point, toFrame: (x: number, y: number) => Point, speck: Speck, nearPx: number): boolean {
  const [from, to] = [toFrame(0, 0), toFrame(speck.acrossPx, speck.downPx)];
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  return [border.sheet, border.image].some((lines) =>
    SIDES.some((side) => {
      const { nx, ny } = lines[side];
      return (
        Math.abs(distanceTo(lines[side], middle)) < nearPx && Math.abs(nx * (to.x - from.x) + ny * (to.y - from.y)) < EDGE_SLOPE * length
      );
    }),
  );
}

/** Leaves out what stands in a chain of near neighbours: writing, stamps, tears. */
function withoutGroups(found: readonly Placed[]): Placed[] {
  const group = new Int32Array(found.length).fill(-1);
  const sizes: number[] = [];
  found.forEach((_, start) => {
    if (group[start] !== -1) return;
    const members = [start];
    group[start] = sizes.length;
    for (let next = 0; next < members.length; next++) {
      const one = found[members[next] as number] as Placed;
      found.forEach((other, index) => {
        if (group[index] !== -1 || Math.hypot(one.xMm - other.xMm, one.yMm - other.yMm) > GROUP_MM + (one.lengthMm + other.lengthMm) / 4)
          return;
        group[index] = sizes.length;
        members.push(index);
      });
    }
    sizes.push(members.length);
  });
  return found.filter((_, index) => (sizes[group[index] as number] as number) < FEWEST_OF_A_GROUP);
}

/** mm of the sheet from its top left as seen. */
function placer(outline: Outline, context: MeasureContext, pxPerMm: number): (x: number, y: number) => { xMm: number; yMm: number } {
  const { sheet } = outline;
  const size = sizeAsSeen(sheet, outline.image, context).sheet ?? {
    widthMm: (lengthOf(sheet, "top") + lengthOf(sheet, "bottom")) / 2 / pxPerMm,
    heightMm: (lengthOf(sheet, "left") + lengthOf(sheet, "right")) / 2 / pxPerMm,
  };
  const map = inverse(homographyFromMm(size.widthMm, size.heightMm, sheet));
  return (x, y) => {
    const at = project(map, x, y);
    return { xMm: at.x, yMm: at.y };
  };
}

const listed = ({ xMm, yMm, kind, lengthMm, isDark }: Placed) => ({ xMm, yMm, kind, lengthMm, isDark });

/** All specks in the frame, on cells of `cellPx`. */
function areaOf(specks: readonly Placed[], { widthPx, heightPx }: Picture, cellPx: number): MarkedArea {
  const span = { columns: widthPx / cellPx, rows: heightPx / cellPx };
  const [columns, rows] = [Math.ceil(span.columns), Math.ceil(span.rows)];
  const mask = new Uint8Array(columns * rows);
  for (const { pixels } of specks) for (const { x, y } of pixels) mask[Math.floor(y / cellPx) * columns + Math.floor(x / cellPx)] = 1;
  return markedArea("frame", mask, columns, rows, span);
}
