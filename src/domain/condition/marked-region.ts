import type { PrintSize } from "../print/dimensions.ts";

export type PointMm = { readonly xMm: number; readonly yMm: number };

/** An outline on one side of a print: mm from the top left corner of that side as one looks at it. Three corners or more. */
export type MarkedRegion = readonly PointMm[];

export const MOST_REGIONS = 30;
const MOST_CORNERS = 60;
/** Nothing larger lies flat on a table. */
const LONGEST_MM = 3000;
/** A mark drawn along an edge may overshoot it by a pencil's width. */
const SLACK_MM = 1;
const LEAST_AREA_MM2 = 0.05;

export type ReadRegions = { readonly regions: readonly MarkedRegion[] } | { readonly problem: string };

/**
 * Reads regions as they are typed, one a line: corners as "x,y" in mm, blanks between. Two corners are opposite corners of a
 * rectangle, three or more go round an outline.
 */
export function readRegions(text: string): ReadRegions {
  const lines = text
    .split("\n")
    .map((line) => line.trim())
    .filter((line) => line !== "");
  if (lines.length > MOST_REGIONS) return { problem: `At most ${MOST_REGIONS} regions can be marked for one finding.` };
  const regions: MarkedRegion[] = [];
  for (const [index, line] of lines.entries()) {
    const corners = line.split(/\s+/).map(cornerFrom);
    const inLine = lines.length === 1 ? "" : ` in line ${index + 1}`;
    if (corners.some((corner) => corner === null))
      return {
        problem: `“${line.slice(0, 60)}” is no region. Write corners as mm from the left, a comma, mm from the top: 12,30 52.5,48.`,
      };
    const region = whole(corners.filter((corner) => corner !== null));
    const problem = problemOf(region);
    if (problem !== null) return { problem: `The region${inLine} ${problem}` };
    regions.push(region);
  }
  return { regions };
}

/** The same regions as they would be typed. */
export const regionsAsTyped = (regions: readonly MarkedRegion[]): string => regions.map(asTyped).join("\n");

/** Left, top, width and height where a region is an upright rectangle, as most are; else null. */
export function rectangleOf(region: MarkedRegion): { leftMm: number; topMm: number; widthMm: number; heightMm: number } | null {
  const [a, b, c, d] = region;
  if (region.length !== 4 || !a || !b || !c || !d) return null;
  const across = a.yMm === b.yMm && b.xMm === c.xMm && c.yMm === d.yMm && d.xMm === a.xMm;
  const down = a.xMm === b.xMm && b.yMm === c.yMm && c.xMm === d.xMm && d.yMm === a.yMm;
  if (!across && !down) return null;
  const [leftMm, topMm] = [Math.min(a.xMm, c.xMm), Math.min(a.yMm, c.yMm)];
  return { leftMm, topMm, widthMm: Math.abs(a.xMm - c.xMm), heightMm: Math.abs(a.yMm - c.yMm) };
}

/** "12 mm from the left and 30 mm from the top, 40.5 × 18 mm" */
export const regionsInWords = (regions: readonly MarkedRegion[]): string =>
  regions
    .map((region) => {
      const xs = region.map(({ xMm }) => xMm);
      const ys = region.map(({ yMm }) => yMm);
      const [left, top] = [Math.min(...xs), Math.min(...ys)];
      const size = `${rounded(Math.max(...xs) - left)} × ${rounded(Math.max(...ys) - top)} mm`;
      return `${rounded(left)} mm from the left, ${rounded(top)} mm from the top, ${rectangleOf(region) ? size : `an outline within ${size}`}`;
    })
    .join("; ");

/** Area of a simple outline, mm² (shoelace formula). */
export function areaMm2(region: MarkedRegion): number {
  const twice = region.reduce((sum, corner, index) => {
    const next = region[(index + 1) % region.length] ?? corner;
    return sum + corner.xMm * next.yMm - next.xMm * corner.yMm;
  }, 0);
  return Math.abs(twice) / 2;
}

/** Why a region cannot lie on a sheet of this size; null when it can, or the size is not known. */
export function outsideSheet(region: MarkedRegion, sheet: Pick<PrintSize, "widthMm" | "heightMm" | "toleranceMm"> | null): string | null {
  if (!sheet) return null;
  const slack = SLACK_MM + sheet.toleranceMm;
  const isInside = region.every(({ xMm, yMm }) => xMm <= sheet.widthMm + slack && yMm <= sheet.heightMm + slack);
  return isInside ? null : `A region reaches beyond the sheet, which is ${sheet.widthMm} mm wide and ${sheet.heightMm} mm high.`;
}

const rounded = (mm: number): number => Math.round(mm * 10) / 10;

function cornerFrom(text: string): PointMm | null {
  const [, x, y] = /^(\d{1,4}(?:\.\d{1,3})?),(\d{1,4}(?:\.\d{1,3})?)$/.exec(text) ?? [];
  return x === undefined || y === undefined ? null : { xMm: Number(x), yMm: Number(y) };
}

/** Two opposite corners stand for the rectangle between them. */
function whole(corners: readonly PointMm[]): MarkedRegion {
  const [first, second] = corners;
  if (corners.length !== 2 || !first || !second) return corners;
  return [first, { xMm: second.xMm, yMm: first.yMm }, second, { xMm: first.xMm, yMm: second.yMm }];
}

function problemOf(region: MarkedRegion): string | null {
  if (region.length < 3) return "has one corner only: give the opposite corner too, or all corners of an outline.";
  if (region.length > MOST_CORNERS) return `has more than ${MOST_CORNERS} corners: leave some out.`;
  if (region.some(({ xMm, yMm }) => xMm > LONGEST_MM || yMm > LONGEST_MM)) return `reaches beyond ${LONGEST_MM} mm.`;
  if (crossesItself(region)) return "crosses its own outline: give the corners in the order in which one walks round it.";
  return areaMm2(region) < LEAST_AREA_MM2 ? "has no area: its corners lie on one line." : null;
}

function crossesItself(region: MarkedRegion): boolean {
  const at = (index: number) => region[index % region.length] as PointMm;
  for (let i = 0; i < region.length; i++) {
    for (let j = i + 2; j < region.length; j++) {
      // the first and the last side meet at a corner
      if (i === 0 && j === region.length - 1) continue;
      if (cross(at(i), at(i + 1), at(j), at(j + 1))) return true;
    }
  }
  return false;
}

function cross(a: PointMm, b: PointMm, c: PointMm, d: PointMm): boolean {
  const turn = (p: PointMm, q: PointMm, r: PointMm) => (q.xMm - p.xMm) * (r.yMm - p.yMm) - (q.yMm - p.yMm) * (r.xMm - p.xMm);
  return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
}

function asTyped(region: MarkedRegion): string {
  const [first, , third] = region;
  const corners = rectangleOf(region) && first && third ? [first, third] : region;
  return corners.map(({ xMm, yMm }) => `${xMm},${yMm}`).join(" ");
}
