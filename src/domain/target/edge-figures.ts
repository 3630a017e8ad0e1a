import type { EdgeResponse } from "../measure/slanted-edge.ts";
import type { EdgeRead } from "./read-edge.ts";
import type { TargetReading } from "./read-target.ts";

/** Half the sampling frequency, cycles per pixel. */
const NYQUIST = 0.5;

type Read = EdgeRead & { readonly response: EdgeResponse };
const isRead = (edge: EdgeRead): edge is Read => !("refused" in edge.response);

/** Resolution, sharpening and misregistration, each by the edge that shows it worst (FADGI 2016; 36 CFR 1236.50, table 2). */
export function edgeFigures(edges: readonly EdgeRead[], asked: number): TargetReading[] {
  const read = edges.filter(isRead);
  const names = ["targetSfr50SharePercent", "targetSfr10EfficiencyPercent", "targetPeakSfr", "targetMisregistrationPx"] as const;
  if (read.length === 0) {
    const reasons = [...new Set(edges.map(({ response }) => ("refused" in response ? response.refused : "")))].join("; ");
    const absent = asked === 0 ? "no slanted edge is on it" : reasons === "" ? "its edges are cut off by the frame" : reasons;
    return names.map((name) => ({ name, absent }));
  }
  const directions = new Set(read.map(({ direction }) => direction));
  const note = directions.size === 2 ? {} : { note: `Read ${[...directions][0]} the frame only.` };
  const share = (frequency: number | null) => (100 * Math.min(NYQUIST, frequency ?? NYQUIST)) / NYQUIST;
  return [
    { name: names[0], value: Math.min(...read.map(({ response }) => share(response.sfr50))), ...note },
    { name: names[1], value: Math.min(...read.map(({ response }) => share(response.sfr10))), ...note },
    { name: names[2], value: Math.max(...read.map(({ response }) => peak(response))), ...note },
    misregistration(read, note),
  ];
}

const peak = ({ frequencies, modulation }: EdgeResponse): number =>
  Math.max(...modulation.filter((_, index) => (frequencies[index] ?? 1) <= NYQUIST));

function misregistration(edges: readonly Read[], note: { note?: string }): TargetReading {
  const name = "targetMisregistrationPx";
  const shifts = edges.flatMap(({ shift, direction }) => (typeof shift === "string" ? [] : [{ ...shift, direction }]));
  if (shifts.length === 0)
    return { name, absent: [...new Set(edges.flatMap(({ shift }) => (typeof shift === "string" ? [shift] : [])))].join("; ") };
  const largest = (direction: EdgeRead["direction"]) =>
    Math.max(
      0,
      ...shifts
        .filter((each) => each.direction === direction)
        .map(({ redPx, bluePx }) => Math.max(Math.abs(redPx), Math.abs(bluePx), Math.abs(redPx - bluePx))),
    );
  return { name, value: Math.hypot(largest("across"), largest("down")), ...note };
}
