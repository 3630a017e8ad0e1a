import type { Fine } from "../laying/lay-finely.ts";
import { median, robustSpread } from "../numbers/robust.ts";
import { runningMedian } from "../numbers/running-median.ts";
import type { GridPlane } from "../planes/grid-plane.ts";
import type { Speck } from "./specks.ts";

/** Every so-and-so-many-th cell is looked at, other ones on each row, so that every column of the frame gets its share. */
const STRIDE = 8;
const STEP = 3;
const FEWEST_ON_A_LINE = 12;
/** Cells on each side that say what a column would be without a line. */
const REACH = 12;
/** ln of light, and spreads of the columns, that a line stands off by. */
const LEAST_STRENGTH = 0.02;
const TIMES_SPREAD = 5;
/** A speck so many times as strong as the line it lies on is no piece of it. */
const TIMES_STRONGER = 1.7;

/**
 * Tells pieces of lines that run along the columns or the rows of a capture's frame, as dirt on the sensor strip of a scanner draws them,
 * from specks, also where they show in the difference of another capture from that one. Over each column (row) of cells the middle difference from the other captures is taken: what single specks leave untouched and a line moves.
 * A line stands where that departs from the columns beside it by 2 % of the light and by five spreads. A speck on it that goes the same way, and
 * not more than 1.7 times as far, is a piece of it. Source: own.
 * @param difference ln of light of any capture of the set less that of the others, in cells of `factor` px of the fine plane
 */
export function piecesOfLines({ placeOf, ownPxPerMm, pxPerMm }: Fine, difference: GridPlane, factor: number): (speck: Speck) => boolean {
  const { width, height, data } = difference;
  const perCell = (ownPxPerMm * factor) / pxPerMm;
  const place = { x: 0, y: 0 };
  const [columns, rows] = [new Map<number, number[]>(), new Map<number, number[]>()];
  for (let y = 0; y < height; y++) {
    for (let x = (STEP * y) % STRIDE; x < width; x += STRIDE) {
      const value = data[y * width + x] as number;
      if (Number.isNaN(value)) continue;
      placeOf(factor * x, factor * y, place);
      add(columns, Math.round(place.x / perCell), value);
      add(rows, Math.round(place.y / perCell), value);
    }
  }
  const [acrossColumns, acrossRows] = [linesOf(columns), linesOf(rows)];
  return ({ x, y, core }) => {
    placeOf(factor * x, factor * y, place);
    const own = median(core.map((at) => data[at] as number));
    return [acrossColumns(Math.round(place.x / perCell)), acrossRows(Math.round(place.y / perCell))].some(
      (strength) => strength * own > 0 && Math.abs(own) < TIMES_STRONGER * Math.abs(strength),
    );
  };
}

function add(lines: Map<number, number[]>, at: number, value: number): void {
  const there = lines.get(at);
  if (there) there.push(value);
  else lines.set(at, [value]);
}

/** The strength of the line at a column, or beside it where it is stronger; 0 where there is none. */
function linesOf(lines: ReadonlyMap<number, readonly number[]>): (at: number) => number {
  const known = [...lines]
    .filter(([, values]) => values.length >= FEWEST_ON_A_LINE)
    .map(([at, values]) => ({ at, middle: median(values) }));
  if (known.length <= 2 * REACH) return () => 0;
  known.sort((a, b) => a.at - b.at);
  const middles = Float64Array.from(known, ({ middle }) => middle);
  const ground = runningMedian(middles, REACH);
  const rests = middles.map((value, index) => value - (ground[index] as number));
  const limit = Math.max(LEAST_STRENGTH, TIMES_SPREAD * robustSpread(rests, 0));
  const strengths = new Map(
    known.flatMap(({ at }, index) => (Math.abs(rests[index] as number) > limit ? [[at, rests[index] as number]] : [])),
  );
  return (at) =>
    [at - 1, at, at + 1].map((near) => strengths.get(near) ?? 0).reduce((most, one) => (Math.abs(one) > Math.abs(most) ? one : most));
}
