import type { Fine } from "../laying/lay-finely.ts";
import { median } from "../numbers/robust.ts";
import type { Point } from "../picture.ts";
import { blurred, type GridPlane, resized } from "../planes/grid-plane.ts";
import { grown } from "../planes/mask.ts";
import { runsAlongFrame, type Shape, shapeOf } from "./dust.ts";
import { lnInLikeTones } from "./like-tones.ts";
import { piecesOfLines } from "./lines-along-frame.ts";
import { localLimits, middleOf, slopesOf } from "./local-limits.ts";
import { findSpecks, type Speck } from "./specks.ts";
import { type SpecksInAll, specksInAll } from "./specks-in-all.ts";

export type Placed = Shape & {
  readonly core: readonly number[];
  /** on the print, mm */
  readonly print: Point;
  /** in the frame, mm */
  readonly glass: Point;
};

export type OfOne = { readonly specks: readonly Placed[]; readonly seenCm2: number };
export type Found = {
  readonly width: number;
  readonly height: number;
  readonly pictureCm2: number;
  readonly inAll: SpecksInAll | null;
  readonly perCapture: readonly OfOne[];
};

/**
 * The specks of each of several captures (dust-together.ts), on one plane of cells. What a shift of half a cell (of lines, a whole one) beside what registration left would make of
 * the slope there is no speck; where one shines nothing is looked for. Null where too little is seen in all.
 */
export function specksOfEach(fines: readonly Fine[]): Found | null {
  const first = fines[0] as Fine;
  const factor = Math.max(1, Math.floor(first.pxPerMm / CELLS_PER_MM));
  const pxPerMm = first.pxPerMm / factor;
  const logs = lnInLikeTones(
    fines.map(({ plane }) => reduced(plane, factor)),
    Math.ceil(MARGIN_MM * pxPerMm),
  );
  if (!logs) return null;
  const { width, height, data } = logs[0] as GridPlane;
  const planes = logs.map((log) => log.data);
  const middle = middleOf(planes, (a, b) => (a + b) / 2);
  const slopes = slopesOf(logs);
  const limitsOf = localLimits(slopes, middle);
  const misfitPx = Math.max(...fines.map(({ residual95Px }) => residual95Px / factor));
  const cm2 = 100 * pxPerMm ** 2;
  const perCapture = fines.map((fine, index): OfOne => {
    let seen = 0;
    const against = planes.length === 2 ? (planes[1 - index] as Float32Array) : middle;
    const own = planes[index] as Float32Array;
    const difference = new Float32Array(own.length);
    for (let at = 0; at < difference.length; at++) difference[at] = (own[at] as number) - (against[at] as number);
    const specks = findSpecks({ width, height, data: difference }, (rest) => {
      const limits = limitsOf(rest);
      leaveOutShine(limits, { width, height, data: difference });
      for (let at = 0; at < limits.length; at++) if (!Number.isNaN(data[at]) && (limits[at] as number) <= SEEN_CONTRAST) seen++;
      return limits;
    });
    const isMisfit = ({ core }: Speck, { kind }: Shape) => {
      const px = misfitPx + (kind === "dust" ? MISFIT_PX : LINE_MISFIT_PX);
      return median(core.map((at) => Math.abs(difference[at] as number) - px * (slopes[at] as number))) < 0;
    };
    const isOfLine = fines.map((each) => piecesOfLines(each, { width, height, data: difference }, factor));
    const placed = specks
      .map((speck) => ({ speck, shape: shapeOf(speck, pxPerMm) }))
      .filter(({ speck, shape }) => !isMisfit(speck, shape) && !isOfLine.some((isPiece) => isPiece(speck)) && isOf(logs, index, speck))
      .map(({ speck, shape }) => placedAt(fine, speck, shape, pxPerMm, factor));
    return { specks: placed, seenCm2: seen / cm2 };
  });
  const cells = data.reduce((sum, value) => (Number.isNaN(value) ? sum : sum + 1), 0);
  return { width, height, pictureCm2: cells / cm2, inAll: specksInAll(logs, pxPerMm), perCapture };
}

const CELLS_PER_MM = 9;
const SMOOTHING_PX = 0.45;
/** Left out along the rim of the picture. */
const MARGIN_MM = 1;
/** ln of light: about a fifth. */
const SEEN_CONTRAST = 0.2;
/** Squares of so many cells that differ by so much of the light on the mean hold no speck, but shine or shadow. */
const SHINE_TILE_PX = 12;
const SHINE_CONTRAST = 0.06;
/** What a shift of so many cells, beside that left by registration, would make of the slope there is no speck: it stands for unequal sharpness too. */
const MISFIT_PX = 0.5;
/** Edges of the picture are lines themselves. */
const LINE_MISFIT_PX = 1;
/** By so many times must one depart more than any other. */
const TIMES_MORE = { ofTwo: 2, ofMore: 1.6 } as const;
/** The ring round a speck begins and ends so many cells beyond its core. */
const RING_PX = [2, 3] as const;

const reduced = (plane: GridPlane, factor: number): GridPlane =>
  blurred(factor === 1 ? plane : resized(plane, Math.floor(plane.width / factor), Math.floor(plane.height / factor)), SMOOTHING_PX);

/** Where one capture shines and the other does not, rims look like hairs, and the picture under the veil like specks: nothing is looked for there. */
function leaveOutShine(limits: Float32Array, difference: GridPlane): void {
  const { width, height } = difference;
  const [columns, rows] = [Math.ceil(width / SHINE_TILE_PX), Math.ceil(height / SHINE_TILE_PX)];
  const broad = resized(difference, columns, rows).data;
  const shining = grown(
    Uint8Array.from(broad, (mean) => (Math.abs(mean) > SHINE_CONTRAST ? 1 : 0)),
    columns,
    rows,
    1,
  );
  for (let at = 0; at < limits.length; at++) {
    const [row, column] = [Math.floor((Math.floor(at / width) * rows) / height), Math.floor(((at % width) * columns) / width)];
    if (shining[row * columns + column] === 1) limits[at] = Number.POSITIVE_INFINITY;
  }
}

/** Whether a capture departs from the light round a speck farther than every other does. */
function isOf(logs: readonly GridPlane[], index: number, { core }: Speck): boolean {
  const { width, height } = logs[0] as GridPlane;
  const ring = ringRound(core, width, height);
  const departure = ({ data }: GridPlane) =>
    Math.abs(
      median(core.map((at) => data[at] as number)) - median(ring.map((at) => data[at] as number).filter((value) => !Number.isNaN(value))),
    );
  const own = departure(logs[index] as GridPlane);
  const times = logs.length === 2 ? TIMES_MORE.ofTwo : TIMES_MORE.ofMore;
  return logs.every((log, k) => k === index || own > times * departure(log));
}

function ringRound(core: readonly number[], width: number, height: number): number[] {
  const within = (reach: number) => {
    const cells = new Set<number>();
    for (const at of core) {
      const [x, y] = [at % width, Math.floor(at / width)];
      for (let j = Math.max(0, y - reach); j <= Math.min(height - 1, y + reach); j++)
        for (let i = Math.max(0, x - reach); i <= Math.min(width - 1, x + reach); i++) cells.add(j * width + i);
    }
    return cells;
  };
  const inner = within(RING_PX[0] - 1);
  return [...within(RING_PX[1])].filter((at) => !inner.has(at));
}

function placedAt({ placeOf, ownPxPerMm }: Fine, speck: Speck, shape: Shape, pxPerMm: number, factor: number): Placed {
  const [from, to] = [
    { x: 0, y: 0 },
    { x: 0, y: 0 },
  ];
  placeOf(factor * speck.x, factor * speck.y, from);
  placeOf(factor * (speck.x + speck.acrossPx), factor * (speck.y + speck.downPx), to);
  const isAlongFrame = runsAlongFrame({ acrossPx: (to.x - from.x) / factor, downPx: (to.y - from.y) / factor });
  return {
    ...shape,
    ...(shape.kind === "scratch" && isAlongFrame && { kind: "mark" as const }),
    core: speck.core,
    print: { x: speck.x / pxPerMm, y: speck.y / pxPerMm },
    glass: { x: from.x / ownPxPerMm, y: from.y / ownPxPerMm },
  };
}
