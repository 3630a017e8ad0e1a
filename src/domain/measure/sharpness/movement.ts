import { evenlyWithin } from "../numbers/standard-uncertainty.ts";
import type { Present, Reading } from "../reading.ts";
import { type BlurTerms, DIRECTION } from "./blur-surface.ts";
import type { SlantedBlur } from "./slanted-blur.ts";

/**
 * motionMm: blur of one direction at all places. A movement of length L in the direction d adds a variance of L² / 12 along d and none
 * across it. The sides of the print give the difference D of the variances along the rows and along the columns, L² / 12 · cos 2d;
 * detail of the picture gives the difference X between both diagonals (see slanted-blur.ts), L² / 12 · sin 2d. Both together,
 * √(D² + X²), are what the soft direction has more than the sharp one; L is the box whose response sin(π f L) / (π f L), times that of the
 * sharp direction, falls to a half where that of the soft direction does. d = atan2(X, D) / 2, 0° = across the frame, 90° = down it.
 *
 * What detail says of rows and columns must agree with the edges: by as much as it does not, it is thought wrong along the diagonals too.
 * Where the picture has no detail, only movement across or down is seen: then what is seen is "at least", and where nothing is seen, absent.
 * Source: own; the variance of an even distribution of length L is L² / 12.
 */
export function movement(terms: BlurTerms, onEdges: Told, slanted: SlantedBlur | null, mmPerPx: number): Movement {
  const { across, down } = bothDirections(terms);
  const d = across - down;
  const inMm2 = (value: number) => value * mmPerPx ** 2;
  const x = slanted && inMm2(slanted.along.value);
  const xSpread = slanted && Math.hypot(inMm2(slanted.along.spread), inMm2(slanted.across.value) - d);
  const mean = (across + down) / 2;
  // the square of an uncertain figure is too large by that of its spread
  const more = Math.hypot(d, Math.sqrt(Math.max(0, (x ?? 0) ** 2 - (xSpread ?? 0) ** 2)));
  const soft = mean + more / 2;
  const sharp = Math.max(LEAST_VARIANCE_SHARE * soft, mean - more / 2);
  const value = 1 - Math.sqrt(sharp / soft);
  const times = Math.max(onEdges.value / onEdges.spread, x !== null && xSpread ? Math.abs(x) / xSpread : 0);
  const leastShare = Math.max(LEAST_SHARE, TIMES_SPREAD * onEdges.spread, xSpread === null ? 0 : (TIMES_SPREAD * xSpread) / (2 * mean));
  const degrees = x === null ? null : ((90 / Math.PI) * Math.atan2(x, d) + 180) % 180;
  return {
    share: { value, spread: times > 0 ? value / times : onEdges.spread },
    sharp,
    soft,
    isAcross: across > down,
    leastShare,
    degrees,
  };
}

/** `share`: by how much the resolution of the soft direction is lower; `sharp`, `soft`: their variances, mm²; `degrees`: null where only the edges tell. */
export type Movement = {
  readonly share: Told;
  readonly sharp: number;
  readonly soft: number;
  readonly isAcross: boolean;
  readonly leastShare: number;
  readonly degrees: number | null;
};
export type Told = { readonly value: number; readonly spread: number };

/** Share of resolution below which nothing is called a fall-off, a bowl or a movement. */
export const LEAST_SHARE = 0.05;
/** …and this many times its own spread. */
export const TIMES_SPREAD = 2.5;
export const LEAST_VARIANCE_SHARE = 0.01;
/** Variance of a Gaussian whose response falls to a half at frequency 1. */
export const VARIANCE_AT_ONE = Math.LN2 / (2 * Math.PI ** 2);

export const isSeen = ({ value, spread }: Told) => value > Math.max(LEAST_SHARE, TIMES_SPREAD * spread);

/** By how much the resolution along rows and along columns differs. */
export function motionShareOf(terms: BlurTerms): number {
  const { across, down } = bothDirections(terms);
  return 1 - Math.sqrt(Math.max(LEAST_VARIANCE_SHARE, Math.min(across, down) / Math.max(across, down)));
}

/** Mean variance along the rim, which is what was read, of each direction. */
function bothDirections(terms: BlurTerms): { across: number; down: number } {
  const rim = (terms[0] as number) + (2 / 3) * ((terms[4] as number) + (terms[5] as number));
  return { across: rim + (terms[DIRECTION] as number), down: rim - (terms[DIRECTION] as number) };
}

export function movementReading({ share, sharp, soft, isAcross, leastShare, degrees }: Movement, trust: Present["reliability"]): Reading {
  const name = "motionMm";
  const lengthAt = (lost: number) => boxLength(sharp, sharp / (1 - Math.min(0.9, lost)) ** 2);
  const leastSeenMm = lengthAt(leastShare);
  // what the picture's own detail told is never firm
  const reliability = trust === "firm" ? "fair" : trust;
  if (!isSeen(share)) {
    if (degrees === null || leastShare > MOST_HIDDEN_SHARE) return { name, absent: NOT_ALONG_DIAGONALS };
    return { name, value: 0, spread: evenlyWithin(leastSeenMm), reliability: "weak", detail: { leastSeenMm, direction: null } };
  }
  const value = boxLength(sharp, soft);
  const spread = lengthAt(share.value + share.spread) - value;
  if (degrees === null)
    return {
      name,
      value,
      spread,
      bound: "lower",
      reliability: trust,
      note: "Only what goes across or down the frame: the picture has too little fine detail to show the part along a diagonal.",
      detail: { leastSeenMm, direction: isAcross ? "across" : "down" },
    };
  return { name, value, spread, reliability, detail: { leastSeenMm, direction: directionOf(degrees), directionDegrees: degrees } };
}

/** A movement that could take away more than this share of resolution unseen is not called none. */
const MOST_HIDDEN_SHARE = 0.25;
const NOT_ALONG_DIAGONALS =
  "the edges show no movement across or down the frame, but the picture has too little fine detail to tell one along a diagonal; a second capture of the print would tell";

const directionOf = (degrees: number) => {
  if (Math.min(degrees, 180 - degrees) < NEAR_DEG) return "across";
  return Math.abs(degrees - 90) < NEAR_DEG ? "down" : "slanted";
};
const NEAR_DEG = 22.5;

/** Length of the box that takes an edge of one variance to the frequency of half contrast of another. */
function boxLength(sharp: number, soft: number): number {
  const frequency = Math.sqrt(VARIANCE_AT_ONE / soft);
  const left = 0.5 / Math.exp(-2 * Math.PI ** 2 * sharp * frequency ** 2);
  let [low, high] = [0, 1];
  for (let step = 0; step < 40; step++) {
    const middle = (low + high) / 2;
    if (Math.sin(Math.PI * middle) / (Math.PI * middle) > left) low = middle;
    else high = middle;
  }
  return low / frequency;
}
