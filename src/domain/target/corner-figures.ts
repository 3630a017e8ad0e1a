import type { EdgeResponse } from "../measure/sharpness/slanted-edge.ts";
import type { EdgeRead } from "./read-edge.ts";
import type { TargetReading } from "./read-target.ts";

/** Where an edge lies in the frame: each 0 in the middle, 1 at a side. */
export type FramePlace = { readonly across: number; readonly down: number };

/** An edge tells of a corner when it lies beyond this share of the way from the middle to both sides (own figure). */
const CORNER_FROM = 0.5;
/** And of the middle within this share both ways (own figure). */
const MIDDLE_TO = 0.35;
/** Half the sampling, cycles per pixel: what falls to its share beyond it is finer than can be told. */
const HALF_SAMPLING = 0.5;

export const FRAME_PARTS = ["top left", "top right", "bottom right", "bottom left", "middle", "between"] as const;
export type FramePart = (typeof FRAME_PARTS)[number];
const CORNERS = 4;

export function framePart({ across, down }: FramePlace): FramePart {
  if (Math.abs(across) <= MIDDLE_TO && Math.abs(down) <= MIDDLE_TO) return "middle";
  if (Math.abs(across) < CORNER_FROM || Math.abs(down) < CORNER_FROM) return "between";
  return `${down < 0 ? "top" : "bottom"} ${across < 0 ? "left" : "right"}`;
}

type Read = EdgeRead & { readonly response: EdgeResponse };
type Share = { readonly percent: number; readonly bound: "lower" | "upper" | null; readonly where: string };

/**
 * How fine the worst corner of the frame is, in percent of the middle: the frequency at which the contrast of an edge falls to a half and
 * to a tenth, corner over middle, each direction with its like, because a lens may be soft in one alone. To
 * read middle and corners both ways and tell the lowest is common practice (no source); no table of levels has a figure for corners alone.
 * @param hasSoftEdges the edges' own softness is in both and makes them more alike: the loss is at least what is seen
 */
export function cornerFigures(edges: readonly Read[], hasSoftEdges: boolean): TargetReading[] {
  return [
    ofWorstCorner("cornerSfr50OfMiddlePercent", edges, hasSoftEdges, ({ sfr50 }) => sfr50),
    ofWorstCorner("cornerSfr10OfMiddlePercent", edges, hasSoftEdges, ({ sfr10 }) => sfr10),
  ];
}

function ofWorstCorner(
  name: TargetReading["name"],
  edges: readonly Read[],
  hasSoftEdges: boolean,
  frequencyOf: (response: EdgeResponse) => number | null,
): TargetReading {
  const placed = edges.map((edge) => ({ ...edge, part: framePart(edge.place) }));
  const middle = placed.filter(({ part }) => part === "middle");
  const corners = placed.filter(({ part }) => part !== "middle" && part !== "between");
  if (corners.length === 0)
    return { name, absent: "no edge of it lies in a corner of the frame; a target that fills the frame would tell" };
  if (middle.length === 0) return { name, absent: "no edge of it lies in the middle of the frame, to hold the corners against" };
  const alike = corners.flatMap((corner) => {
    const inMiddle = middle.filter(({ direction }) => direction === corner.direction);
    return inMiddle.length === 0 ? [] : [{ corner, inMiddle }];
  });
  if (alike.length === 0) return { name, absent: "the edges in the corners and in the middle of the frame do not lie in one direction" };
  const shares = alike.flatMap(({ corner, inMiddle }): Share[] => {
    const share = shareOf(frequencyOf(corner.response), finest(inMiddle.map(({ response }) => frequencyOf(response))));
    return share === null ? [] : [{ ...share, where: `${corner.part}, read ${corner.direction} the frame` }];
  });
  if (shares.length === 0) return { name, absent: "corners and middle are all finer than the sampling can tell" };
  const { percent, bound, where } = worst(shares);
  const seen = new Set(alike.map(({ corner }) => corner.part)).size;
  const isAtMost = hasSoftEdges || seen < CORNERS || bound === "upper";
  const note = `Worst corner: ${where}.${seen < CORNERS ? ` ${seen} of 4 corners were read.` : ""}`;
  // at least so much because of one thing and at most because of another is nothing told
  if (isAtMost && bound === "lower") return { name, absent: "the corners that were read are finer than the sampling can tell" };
  return { name, value: percent, note, ...(isAtMost ? { bound: "upper" as const } : bound ? { bound } : {}) };
}

/** The middle is as fine as its finest edge; null where that is beyond what the sampling tells. */
const finest = (frequencies: readonly (number | null)[]): number | null =>
  frequencies.includes(null) ? null : Math.max(...frequencies.map((frequency) => frequency ?? 0));

/** What does not fall within the sampling falls beyond half of it. Null where neither falls. */
function shareOf(corner: number | null, middle: number | null): Omit<Share, "where"> | null {
  if (corner === null && middle === null) return null;
  return {
    percent: (100 * (corner ?? HALF_SAMPLING)) / (middle ?? HALF_SAMPLING),
    bound: corner === null ? "lower" : middle === null ? "upper" : null,
  };
}

/** Where one is at most something, the worst is at most that; those that are at least something are then no help. */
function worst(shares: readonly Share[]): Share {
  const upper = shares.some(({ bound }) => bound === "upper");
  const told = upper ? shares.filter(({ bound }) => bound !== "lower") : shares;
  const least = told.reduce((so, one) => (one.percent < so.percent ? one : so));
  return upper ? { ...least, bound: "upper" } : least;
}
