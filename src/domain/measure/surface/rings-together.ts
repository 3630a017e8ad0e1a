import type { Laid } from "../laying/lay-finely.ts";
import { markedArea } from "../marked-area.ts";
import { robustSpread } from "../numbers/robust.ts";
import { boxBlurred } from "../planes/box-blur.ts";
import { type GridPlane, resized } from "../planes/grid-plane.ts";
import { boxesOf } from "../planes/mask.ts";
import type { Present, Reading } from "../reading.ts";
import { type Fringes, findFringes } from "./fringe-search.ts";
import { lnInLikeTones } from "./like-tones.ts";
import { plainShare } from "./ring-planes.ts";
import { isInterference } from "./rings.ts";

/**
 * Interference rings by comparison: share of the picture, in percent, that the largest patch of fringes covers (fringe-search.ts, rings.ts) in ln of
 * light of one capture less the mean of the others, tones and smooth light matched (like-tones.ts). What the print shows cancels, so that
 * fringes are seen over detail too. Of three or more, others from which it differs more than from the closest, as those do that could not be laid
 * on it exactly, would hide its fringes: they are left out of the mean, and only asked whose the fringes are.
 *
 * Whose they are: over the patch the light of the capture that has them swings as the difference does, that of every other does not. With three or more, swings are
 * those of the difference from each other capture, and of the differences from any two of them together; with two, of the capture's own light, the picture and all, plain places above others.
 * Fringes by the mean of two or more others where all lie finely on each other: firm; else, and that there are none: fair; only strong fringes are seen where they lie roughly. At least: fringes that are the same in all captures or finer than one a mm are not seen.
 * Absent where the size of the print is not known, and where less than a tenth of the difference is plain enough for fringes of 5 % of the light.
 * Source: as rings.ts; the comparison: own.
 */
export function ringsTogether(laid: readonly Laid[]): Reading[][] {
  const pxPerMm = pxPerMmOf(laid);
  if (pxPerMm === null) return laid.map(() => absent("the size of the print is not known, so fringes cannot be told by their distance"));
  const logs = lnInLikeTones(planesOf(laid, pxPerMm), Math.ceil(MARGIN_MM * pxPerMm));
  if (!logs) return laid.map(() => absent("too little of the picture is seen in all captures"));
  const found = laid.length === 2 ? ofTwo(logs as [GridPlane, GridPlane], pxPerMm) : ofAll(logs, pxPerMm);
  const areFine = laid.every(({ fine }) => fine);
  return laid.map((each, index) => readingOf(each, found[index] ?? "busy", areFine));
}

export const RINGS_TOGETHER = ["ringAreaPercent"] as const;

const absent = (reason: string): Reading[] => [{ name: "ringAreaPercent", absent: reason }];

const PX_PER_MM = 4;
const MARGIN_MM = 1.5;
const FAINTEST = 0.03;
const LEAST_PLAIN = 0.1;
/** Share of the swing in one of two captures from which rings are its own, in the difference from one that is left out of the mean, and in those from any two together; and in the difference from each that is in it. */
const OF_ONE = 0.65;
const OF_ALL = 0.85;
const MOST_LIKENESS = 0.4;
/** Others that differ by more than so many times the spread of the closest are left out of the mean. */
const TIMES_CLOSEST = 1.25;
/** Of a swing of a thousandth of the light. */
const LEAST_POWER = 1e-6;
/** Less than where the picture is still there (fringe-search.ts), since little else can look like fringes. */
const LEAST_RESPONSE = 0.36;
/** Edges that are left are made no stronger than so many robust spreads. */
const TIMES_SPREAD = 3;
const MOST_PLACES = 6;

/**
 * What was found in one capture; `busy`: too much is left to find any; `either`: fringes, but whose they are cannot be told; `another's`: those that were
 * found are, whatever else there is.
 */
type Found = { readonly fringes: Fringes | null; readonly comparedWith: number } | "busy" | "either" | "another's";

function pxPerMmOf(laid: readonly Laid[]): number | null {
  const { pxPerMm, fine } = laid[0] as Laid;
  return laid.every((each) => each.fine) ? Math.min(PX_PER_MM, (fine as NonNullable<typeof fine>).pxPerMm) : pxPerMm;
}

/** Fine planes where all have one, since they lie on each other better. */
function planesOf(laid: readonly Laid[], pxPerMm: number): GridPlane[] {
  return laid.map(({ fine, coarse }) => {
    if (!fine || !laid.every((each) => each.fine)) return coarse;
    const factor = pxPerMm / fine.pxPerMm;
    return resized(fine.plane, Math.round(fine.plane.width * factor), Math.round(fine.plane.height * factor));
  });
}

function ofTwo(logs: readonly [GridPlane, GridPlane], pxPerMm: number): Found[] {
  const [first, second] = logs;
  const difference = differenceOf(first, [second]);
  const fringes = fringesIn(difference, pxPerMm);
  if (!fringes || fringes === "none") return [0, 1].map(() => (fringes ? noneBeside(1) : "busy"));
  if (isOfPicture(fringes, difference, first, second, pxPerMm)) return [noneBeside(1), noneBeside(1)];
  const weights = plainness(first, second, reachPx(fringes, pxPerMm));
  const [one, other] = [first, second].map((log) => sharedSwing(fringes, difference, log, pxPerMm, weights)) as [number, number];
  const share = one / (one - other);
  if (share > 1 - OF_ONE && share < OF_ONE) return ["either", "either"];
  const own = { fringes, comparedWith: 1 };
  return share > 0.5 ? [own, noneBeside(1)] : [noneBeside(1), own];
}

const noneBeside = (comparedWith: number): Found => ({ fringes: null, comparedWith });

/**
 * Of three or more. Fringes of others in a capture's difference hide whether it has some too: where others are told to have some, none is said of
 * it only where its difference from the rest shows none.
 */
function ofAll(logs: readonly GridPlane[], pxPerMm: number): Found[] {
  const found = logs.map((_, index) => ofMore(logs, index, pxPerMm));
  const rest = logs.filter((_, index) => !hasFringes(found[index]));
  return found.map((each, index) => {
    if (each === "busy" || hasFringes(each)) return each;
    if (rest.length === logs.length) return each === "another's" ? noneBeside(logs.length - 1) : each;
    const own = logs[index] as GridPlane;
    const others = rest.filter((log) => log !== own);
    return others.length > 0 && showsNone(own, others, pxPerMm) ? noneBeside(others.length) : "either";
  });
}

function showsNone(own: GridPlane, others: readonly GridPlane[], pxPerMm: number): boolean {
  const difference = differenceOf(own, others);
  const fringes = fringesIn(difference, pxPerMm);
  return fringes === "none" || (fringes !== null && isOfPicture(fringes, difference, own, meanOf(others), pxPerMm));
}

function meanOf(logs: readonly GridPlane[]): GridPlane {
  const [first] = logs as [GridPlane];
  return { ...first, data: first.data.map((_, at) => logs.reduce((sum, { data }) => sum + (data[at] as number), 0) / logs.length) };
}

function ofMore(logs: readonly GridPlane[], index: number, pxPerMm: number): Found {
  const own = logs[index] as GridPlane;
  const others = logs.filter((_, k) => k !== index).map((log) => ({ log, spread: spreadBetween(own, log) }));
  const closest = Math.min(...others.map(({ spread }) => spread));
  const close = others.flatMap(({ log, spread }) => (spread <= TIMES_CLOSEST * closest ? [log] : []));
  const difference = differenceOf(own, close);
  const fringes = fringesIn(difference, pxPerMm);
  if (!fringes) return "busy";
  const none = noneBeside(close.length);
  if (fringes === "none") return none;
  if (isOfPicture(fringes, difference, own, meanOf(close), pxPerMm)) return none;
  const whole = sharedSwing(fringes, difference, difference, pxPerMm);
  const fromEach = others.map(({ log }) => differenceOf(own, [log]));
  const shares = others.map(({ log }, index) => ({
    share: sharedSwing(fringes, difference, fromEach[index] as GridPlane, pxPerMm) / whole,
    least: close.length > 1 && close.includes(log) ? OF_ALL : OF_ONE,
  }));
  // of fringes of its own the differences from any two others swing alike; those of two others, each with its own, do not
  const areAlike = fromEach.every((one, index) =>
    fromEach.slice(0, index).every((two) => sharedSwing(fringes, one, two, pxPerMm) / whole > OF_ONE),
  );
  if (areAlike && shares.every(({ share, least }) => share > least)) return { fringes, comparedWith: close.length };
  return shares.some(({ share }) => share < 1 - OF_ONE) ? "another's" : "either";
}

const spreadBetween = (one: GridPlane, other: GridPlane) => spreadOf(one.data.map((value, at) => value - (other.data[at] as number)));

const spreadOf = (difference: Float32Array) =>
  robustSpread(
    difference.filter((value) => !Number.isNaN(value)),
    0,
  );

const hasFringes = (found: Found | undefined): boolean => typeof found === "object" && found.fringes !== null;

/** Null where too little is plain. */
function fringesIn(difference: GridPlane, pxPerMm: number): Fringes | "none" | null {
  if (plainShare(difference, pxPerMm, FAINTEST) < LEAST_PLAIN) return null;
  const fringes = findFringes(difference, pxPerMm, LEAST_RESPONSE);
  return fringes && isInterference(fringes) ? fringes : "none";
}

/** ln of light less the mean of others; nought where any has nothing. */
function differenceOf({ width, height, data }: GridPlane, others: readonly GridPlane[]): GridPlane {
  const difference = data.map((value, at) => value - others.reduce((sum, other) => sum + (other.data[at] as number), 0) / others.length);
  const most = TIMES_SPREAD * spreadOf(difference);
  return { width, height, data: difference.map((value) => Math.min(most, Math.max(-most, value)) || 0) };
}

/** What unequal sharpness or tone leaves swings as both captures do; fringes of one swing as that one does, and not as the other. */
function isOfPicture(fringes: Fringes, difference: GridPlane, one: GridPlane, other: GridPlane, pxPerMm: number): boolean {
  const swing = (a: GridPlane, b: GridPlane) => sharedSwing(fringes, a, b, pxPerMm);
  const likeness = (plane: GridPlane) =>
    swing(difference, plane) / Math.sqrt(Math.max(1e-12, swing(difference, difference) * swing(plane, plane)));
  const [a, b] = [likeness(one), likeness(other)];
  return a * b > 0 && Math.min(Math.abs(a), Math.abs(b)) > MOST_LIKENESS;
}

const reachPx = (fringes: Fringes, pxPerMm: number) => (fringes.periodsMm[1] / 2.2) * pxPerMm;

/** How a plane stands off its surroundings. */
function swingOf({ width, height, data }: GridPlane, reach: number): Float32Array {
  const filled = { width, height, data: data.map((value) => value || 0) };
  const broad = boxBlurred(filled, reach).data;
  return filled.data.map((value, at) => value - (broad[at] as number));
}

/** One over the power of what two captures show nearby: where the picture swings much, a little of it that is in one alone, as by its blur, would outweigh fringes. */
function plainness(one: GridPlane, other: GridPlane, reach: number): Float32Array {
  const swings = [swingOf(one, reach), swingOf(other, reach)] as const;
  const data = swings[0].map((value, at) => ((value + (swings[1][at] as number)) / 2) ** 2);
  return boxBlurred({ ...one, data }, reach).data.map((power) => 1 / (power + LEAST_POWER));
}

/** Mean product, over the patch, of how a difference and another plane stand off their surroundings; of less or more weight from place to place. */
function sharedSwing(fringes: Fringes, difference: GridPlane, other: GridPlane, pxPerMm: number, weights?: Float32Array): number {
  const reach = reachPx(fringes, pxPerMm);
  const [one, two] = [swingOf(difference, reach), swingOf(other, reach)];
  let sum = 0;
  let count = 0;
  for (let at = 0; at < one.length; at++) {
    const column = Math.min(fringes.width - 1, Math.floor((((at % other.width) + 0.5) * fringes.width) / other.width));
    const row = Math.min(fringes.height - 1, Math.floor(((Math.floor(at / other.width) + 0.5) * fringes.height) / other.height));
    if (fringes.mask[row * fringes.width + column] !== 1) continue;
    sum += (weights?.[at] ?? 1) * (one[at] as number) * (two[at] as number);
    count++;
  }
  return sum / Math.max(1, count);
}

function readingOf({ asSeen, sizeAsSeen }: Laid, found: Found, areFine: boolean): Reading[] {
  const name = "ringAreaPercent";
  if (found === "busy")
    return absent("too much is left between the captures for rings to be told from it; captures of like sharpness would tell");
  if (typeof found === "string") return absent("fringes show between the captures, but in which of them is not told; one more would tell");
  const { fringes, comparedWith } = found;
  const common = { name, reliability: areFine && comparedWith > 1 ? "firm" : "fair", bound: "lower" } as const;
  if (!fringes)
    return [
      {
        ...common,
        // fainter ones may be there, however many captures there are
        reliability: "fair",
        value: 0,
        note: `None that the other ${comparedWith > 1 ? "captures do" : "capture does"} not show; fringes fainter than about a twentieth of the light would not have been seen.`,
        detail: { of: "picture", comparedWith },
      },
    ];
  const mask = asSeen({ width: fringes.width, height: fringes.height, data: Float32Array.from(fringes.mask) });
  const cells = Uint8Array.from(mask.data);
  const reading: Present = {
    ...common,
    value: (100 * fringes.areaMm2) / cellsMm2(fringes),
    note: "Fringes that are in this capture and not in another: of the capture, not of the print.",
    detail: {
      of: "picture",
      comparedWith,
      contrastPercent: 100 * fringes.contrast,
      periodMm: { closest: fringes.periodsMm[0], middle: fringes.periodsMm[1], widest: fringes.periodsMm[2] },
      places: boxesOf(cells, mask.width, mask.height, sizeAsSeen).slice(0, MOST_PLACES),
    },
    area: [markedArea("picture", cells, mask.width, mask.height)],
  };
  return [reading];
}

/** All cells that were looked at have one size. */
const cellsMm2 = ({ mask, areaMm2 }: Fringes) => (areaMm2 * mask.length) / mask.reduce((sum, cell) => sum + cell, 0);
