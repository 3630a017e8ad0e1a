import { waysApart } from "../measure/sharpness/channel-shift.ts";
import type { EdgeResponse } from "../measure/sharpness/slanted-edge.ts";
import { cornerFigures } from "./corner-figures.ts";
import type { TargetLayout } from "./layout.ts";
import type { EdgeRead } from "./read-edge.ts";
import type { TargetReading } from "./read-target.ts";

/** Half the sampling frequency, cycles per pixel. */
const NYQUIST = 0.5;
/** SFR50 beyond this share of half the sampling is a fault too (36 CFR 1236.50, table 2: above 40 % and below 75 %). */
const MOST_SFR50_PERCENT = 75;
const LEAST_SFR50_PERCENT = 40;

type Read = EdgeRead & { readonly response: EdgeResponse };
const isRead = (edge: EdgeRead): edge is Read => !("refused" in edge.response);

/** Resolution, sharpening and misregistration, each by the edge that shows it worst (FADGI 2016; 36 CFR 1236.50, table 2), and the corners. */
export function edgeFigures(
  edges: readonly EdgeRead[],
  { edges: asked, softEdges }: Pick<TargetLayout, "edges" | "softEdges">,
): TargetReading[] {
  const read = edges.filter(isRead);
  const names = ["targetSfr50SharePercent", "targetSfr10EfficiencyPercent", "targetPeakSfr", "targetMisregistrationPx"] as const;
  const corners = cornerFigures(read, softEdges);
  if (read.length === 0) {
    const reasons = [...new Set(edges.map(({ response }) => ("refused" in response ? response.refused : "")))].join("; ");
    const absent = asked.length === 0 ? "no slanted edge is on it" : reasons === "" ? "its edges are cut off by the frame" : reasons;
    return [...names, ...corners.map(({ name }) => name)].map((name) => ({ name, absent }));
  }
  const rest = directionsOf(read);
  const lower = softEdges ? { bound: "lower" as const } : {};
  const share = (frequency: number | null) => (100 * Math.min(NYQUIST, frequency ?? NYQUIST)) / NYQUIST;
  return [
    { name: names[0], value: farthestOut(read.map(({ response }) => share(response.sfr50))), ...rest, ...lower },
    { name: names[1], value: Math.min(...read.map(({ response }) => share(response.sfr10))), ...rest, ...lower },
    { name: names[2], value: Math.max(...read.map(({ response }) => peak(response))), ...rest, ...lower },
    ...corners,
    misregistration(read),
  ];
}

/** What is seen in one direction alone is told as such. */
function directionsOf(edges: readonly Pick<EdgeRead, "direction">[]): { note?: string } {
  const directions = [...new Set(edges.map(({ direction }) => direction))];
  return directions.length === 2 ? {} : { note: `Read ${directions[0]} the frame only.` };
}

/** The softest edge, unless another is finer than it may be by more than that one is too soft. */
function farthestOut(shares: readonly number[]): number {
  const [softest, finest] = [Math.min(...shares), Math.max(...shares)];
  return finest - MOST_SFR50_PERCENT > Math.max(0, LEAST_SFR50_PERCENT - softest) ? finest : softest;
}

const peak = ({ frequencies, modulation }: EdgeResponse): number =>
  Math.max(...modulation.filter((_, index) => (frequencies[index] ?? 1) <= NYQUIST));

/**
 * The largest way between two of the colours across any one edge (channel-shift.ts). Both directions joined are told beside it, since a shift across a corner is
 * longer than either. "At least" where the colours could be read in one direction only.
 */
function misregistration(edges: readonly Read[]): TargetReading {
  const name = "targetMisregistrationPx";
  const shifts = edges.flatMap(({ shift, direction }) => (typeof shift === "string" ? [] : [{ ...shift, direction }]));
  if (shifts.length === 0)
    return { name, absent: [...new Set(edges.flatMap(({ shift }) => (typeof shift === "string" ? [shift] : [])))].join("; ") };
  const largest = (direction: EdgeRead["direction"]) =>
    Math.max(0, ...shifts.filter((each) => each.direction === direction).map(waysApart));
  const [across, down] = [largest("across"), largest("down")];
  const value = Math.max(across, down);
  const oneWay = directionsOf(shifts);
  if (oneWay.note !== undefined) return { name, value, note: oneWay.note, bound: "lower" };
  return {
    name,
    value,
    note: `The larger of ${across.toFixed(2)} px across and ${down.toFixed(2)} px down; together ${Math.hypot(across, down).toFixed(2)} px.`,
  };
}
