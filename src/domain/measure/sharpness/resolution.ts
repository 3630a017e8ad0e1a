import { median } from "../numbers/robust.ts";
import { evenlyWithin } from "../numbers/standard-uncertainty.ts";
import type { Picture } from "../picture.ts";
import type { MeasureContext, Outline, Present, Reading, Reliability } from "../reading.ts";
import { bestEdges, type PrintEdge, printEdges } from "./print-edges.ts";
import { sharpeningOf } from "./sharpening.ts";
import type { EdgeResponse } from "./slanted-edge.ts";

/**
 * Resolution of the capture from the print's own edges (see slanted-edge.ts for the method, ISO 12233:2014):
 *
 * - sfr50, sfr10: frequencies at which the contrast falls to a half and to a tenth, cycles per mm of the print =
 *   cycles per pixel × local pixels per mm, the lower of both directions. sfr10 ends at half the sampling frequency.
 * - sampling-efficiency: SFR10 in percent of half the sampling frequency, at most 100 (FADGI 2016, "Sampling efficiency").
 * - sharpening: how far the bright side of the edges overshoots, percent of the step.
 *
 * An edge of paper has a width of its own, so that resolution and efficiency are lower bounds. Edges clipped to white are
 * left out (edge-clipping.ts). A contrast of a half beyond three quarters of half the sampling frequency is more than
 * 36 CFR 1236.50 lets a system show, because sharpening and false detail do that: then no lower bound and never firm; at half
 * the sampling frequency itself, weak. The sides of the sheet are read first, where they stand out from their ground; else the sides of the picture, by their median. Absent when
 * no side can be used.
 */
export function resolution(
  picture: Picture,
  outline: Outline | null,
  context: MeasureContext,
  edges: readonly PrintEdge[] = outline ? printEdges(picture, outline, context) : [],
): Reading[] {
  if (!outline) return NAMES.map((name) => ({ name, absent: "the print was not found in the frame" }));
  const across = directionOf(edges, "across");
  const down = directionOf(edges, "down");
  const directions = [across, down].filter((each) => each !== null);
  if (directions.length === 0) return NAMES.map((name) => ({ name, absent: reasonsOf(edges) }));
  const sharpened = sharpeningOf(edges, context);
  const finest50 = Math.max(...directions.map((each) => each.sfr50.cyclesPerPx));
  const isTooFine = finest50 > MOST_BELIEVED_50;
  const reliability = sharpened.flagged || finest50 >= NYQUIST ? "weak" : isTooFine ? "fair" : reliabilityOf(directions);
  const notes = [
    ...(sharpened.flagged ? ["Raised by sharpening: software made the edges steeper than the capture was."] : []),
    ...(isTooFine && !sharpened.flagged
      ? ["Finer than optics usually show at this sampling: sharpening, or jagged edges, may have raised it."]
      : []),
    ...(directions.length === 1
      ? [`Read ${across ? "across" : "down"} the frame only; no edge could be used in the other direction.`]
      : []),
    ...(directions.some((each) => each.of === "picture") ? ["From the sides of the picture, whose own sharpness is not known."] : []),
  ];
  const common: Rest = {
    reliability,
    ...(!sharpened.flagged && !isTooFine && { bound: "lower" }),
    ...(notes.length > 0 && { note: notes.join(" ") }),
  };
  const lowest10 = lowest(directions, (each) => each.sfr10);
  const atLimit = lowest10.cyclesPerPx >= NYQUIST && "As fine as the sampling can show.";
  return [
    inCyclesPerMm("sfr50CyPerMm", directions, (each) => each.sfr50, { ...common, detail: detailOf(edges, across, down) }),
    inCyclesPerMm("sfr10CyPerMm", directions, (each) => each.sfr10, atLimit ? { ...common, note: [...notes, atLimit].join(" ") } : common),
    {
      name: "samplingEfficiencyPercent",
      value: Math.min(100, (100 * lowest10.cyclesPerPx) / NYQUIST),
      ...common,
      detail: { across: across && (100 * across.sfr10.cyclesPerPx) / NYQUIST, down: down && (100 * down.sfr10.cyclesPerPx) / NYQUIST },
    },
    sharpened.reading,
  ];
}

const NAMES = ["sfr50CyPerMm", "sfr10CyPerMm", "samplingEfficiencyPercent", "sharpeningOvershootPercent"] as const;
/** Half the sampling frequency, cycles per pixel. */
const NYQUIST = 0.5;
/** Three quarters of it. */
const MOST_BELIEVED_50 = 0.375;
/** SFR10 scatters more than SFR50 does: its part of the curve is flatter and nearer to the noise. */
const TENTH_DOUBT = 2;
const CURVE_POINTS = 26;
const FIRM_STEP_TO_NOISE = 40;

type UsableEdge = PrintEdge & { readonly response: EdgeResponse & { readonly sfr50: number } };
type Frequency = { readonly cyclesPerPx: number; readonly pxPerMm: number | null; readonly withinShare: number };

/** What was read in one direction, and from which edges. */
type Direction = {
  readonly of: "sheet" | "picture";
  readonly isClean: boolean;
  readonly edges: readonly UsableEdge[];
  readonly sfr50: Frequency;
  readonly sfr10: Frequency;
};

type Rest = Pick<Present, "reliability" | "bound" | "note" | "detail">;

const isUsable = (edge: PrintEdge): edge is UsableEdge => edge.refused === null && edge.response !== null && edge.response.sfr50 !== null;

function directionOf(all: readonly PrintEdge[], direction: PrintEdge["direction"]): Direction | null {
  const edges = bestEdges(all.filter(isUsable).filter((edge) => edge.direction === direction));
  const isClean = edges.every((edge) => edge.isClean);
  if (edges.length === 0) return null;
  const pick = (frequencyOf: (edge: UsableEdge) => number, doubt: number): Frequency => {
    const perMm = edges.map((edge) => edge.pxPerMm ?? 1);
    const values = edges.map((edge, index) => frequencyOf(edge) * (perMm[index] as number));
    const middle = median(values);
    const lowestAt = values.indexOf(Math.min(...values));
    const edge = edges[lowestAt] as UsableEdge;
    const cyclesPerPx = isClean ? frequencyOf(edge) : middle / (perMm[lowestAt] as number);
    return { cyclesPerPx, pxPerMm: edge.pxPerMm, withinShare: doubt * edge.spreadShare };
  };
  return {
    of: (edges[0] as UsableEdge).of,
    isClean,
    edges,
    sfr50: pick(({ response }) => Math.min(NYQUIST, response.sfr50), 1),
    sfr10: pick(({ response }) => Math.min(NYQUIST, response.sfr10 ?? NYQUIST), TENTH_DOUBT),
  };
}

function reasonsOf(edges: readonly PrintEdge[]): string {
  const reasons = [...new Set(edges.flatMap((edge) => edge.refused ?? []))];
  return `no edge of the print can be used: ${reasons.join("; ")}`;
}

/** firm: both directions from clean sides of the sheet that agree. */
function reliabilityOf(directions: readonly Direction[]): Reliability {
  const isClean = directions.every(
    ({ isClean, edges }) =>
      isClean && edges.every((edge) => edge.response.stepToNoise >= FIRM_STEP_TO_NOISE && edge.spreadShare <= 0.02) && agree(edges),
  );
  return isClean && directions.length === 2 ? "firm" : "fair";
}

function agree(edges: readonly UsableEdge[]): boolean {
  const values = edges.map((edge) => edge.response.sfr50 * (edge.pxPerMm ?? 1));
  return Math.max(...values) <= 1.1 * Math.min(...values);
}

function lowest(directions: readonly Direction[], frequencyOf: (direction: Direction) => Frequency): Frequency {
  const perMm = (each: Frequency) => each.cyclesPerPx * (each.pxPerMm ?? 1);
  return directions.map(frequencyOf).reduce((least, each) => (perMm(each) < perMm(least) ? each : least));
}

function inCyclesPerMm(
  name: "sfr50CyPerMm" | "sfr10CyPerMm",
  directions: readonly Direction[],
  frequencyOf: (direction: Direction) => Frequency,
  rest: Rest,
): Reading {
  const { cyclesPerPx, pxPerMm, withinShare } = lowest(directions, frequencyOf);
  if (pxPerMm === null) return { name, absent: "the print's size is not known, so cycles per pixel cannot be turned into cycles per mm" };
  const value = cyclesPerPx * pxPerMm;
  return { name, value, spread: value * evenlyWithin(withinShare), ...rest };
}

function detailOf(edges: readonly PrintEdge[], across: Direction | null, down: Direction | null): Readonly<Record<string, unknown>> {
  const perMm = (frequency: Frequency | undefined) => frequency && frequency.pxPerMm !== null && frequency.cyclesPerPx * frequency.pxPerMm;
  return {
    across: across && { from: across.of, sfr50CyPerMm: perMm(across.sfr50), sfr10CyPerMm: perMm(across.sfr10) },
    down: down && { from: down.of, sfr50CyPerMm: perMm(down.sfr50), sfr10CyPerMm: perMm(down.sfr10) },
    sides: edges.map(({ of, side, refused, response, pxPerMm }) => ({
      of,
      side,
      refused,
      ...(response && {
        sfr50CyPerPx: response.sfr50,
        sfr10CyPerPx: response.sfr10,
        pxPerMm,
        angleDeg: response.angleDeg,
        contrast: response.contrast,
        stepToNoise: response.stepToNoise,
        overshootPercent: 100 * response.overshoot,
      }),
    })),
    curves: edges.filter(isUsable).flatMap((edge) => (edge.pxPerMm === null ? [] : [curveOf(edge, edge.pxPerMm)])),
  };
}

/** The response up to half the sampling frequency, few enough points to be kept and drawn. */
function curveOf({ of, side, response }: UsableEdge, pxPerMm: number): { label: string; cyPerMm: number[]; modulation: number[] } {
  const last = Math.max(
    1,
    response.frequencies.findLastIndex((frequency) => frequency <= NYQUIST),
  );
  const points = Array.from({ length: CURVE_POINTS }, (_, k) => Math.round((last * k) / (CURVE_POINTS - 1)));
  const rounded = (value: number | undefined) => Number((value ?? 0).toPrecision(4));
  return {
    label: `${side} side of the ${of}`,
    cyPerMm: points.map((k) => rounded((response.frequencies[k] as number) * pxPerMm)),
    modulation: points.map((k) => rounded(response.modulation[k])),
  };
}
