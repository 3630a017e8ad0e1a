import type { TargetMeasureName } from "../aim/target-measures.ts";
import { ciede2000 } from "../measure/colour/ciede2000.ts";
import type { Lab } from "../measure/colour/lab.ts";
import { type Homography, homographyFromMm, scaleAt } from "../measure/homography.ts";
import { median } from "../measure/numbers/robust.ts";
import type { Picture, Quad } from "../measure/picture.ts";
import { edgeFigures } from "./edge-figures.ts";
import { patchesOf, type TargetLayout } from "./layout.ts";
import { patchFigures } from "./patch-figures.ts";
import { type EdgeRead, readEdge } from "./read-edge.ts";
import { type PatchRead, readPatch } from "./read-patches.ts";
import type { ReferenceValues } from "./reference-values.ts";

/** What a target proves of a set-up, or why it does not. */
export type TargetReading =
  | {
      readonly name: TargetMeasureName;
      readonly value: number;
      /** the true value is at least (lower) or at most (upper) this */
      readonly bound?: "lower" | "upper";
      readonly note?: string;
    }
  | { readonly name: TargetMeasureName; readonly absent: string };

export type PatchCompared = PatchRead & { readonly truth: Lab | null; readonly deltaE: number | null };

export type TargetRead = {
  readonly readings: readonly TargetReading[];
  readonly patches: readonly PatchCompared[];
  readonly edges: readonly EdgeRead[];
  /** quarter turns clockwise by which the target lies turned in the frame */
  readonly turns: 0 | 1 | 2 | 3;
  /** at the middle of the target */
  readonly ppi: { readonly x: number; readonly y: number };
};

/**
 * Reads a target whose sheet was found in a picture. Colours are compared as the file says them, without bringing exposure or white
 * into line first: that is what is asked of the set-up.
 * @param sheet the corners of the target, px, named as seen in the frame
 * @param claimed pixels per inch that the file says; null where it does not
 * @returns null where the sheet has other proportions than the target, or nothing can be read in any turn
 */
export function readTarget(
  picture: Picture,
  sheet: Quad,
  layout: TargetLayout,
  reference: ReferenceValues | null,
  claimed: { readonly x: number | null; readonly y: number | null },
): TargetRead | null {
  const turns = turnsOf(picture, sheet, layout, reference);
  if (turns === null) return null;
  const map = mapOf(sheet, layout, turns);
  const patches = comparedPatches(picture, map, layout, reference);
  const edges = layout.edges.flatMap((edge) => readEdge(picture, map, edge) ?? []);
  const ppi = ppiAt(map, layout, turns);
  const cutOff = patchesOf(layout).length + layout.edges.length - patches.length - edges.length;
  const readings = [...patchFigures(patches, layout, reference !== null), ...edgeFigures(edges, layout), scaleFigure(ppi, claimed, layout)];
  return {
    readings:
      cutOff === 0 ? readings : readings.map((reading) => withNote(reading, `${cutOff} patches or edges are cut off or too small.`)),
    patches,
    edges,
    turns,
    ppi,
  };
}

const withNote = (reading: TargetReading, note: string): TargetReading =>
  "absent" in reading ? reading : { ...reading, note: [reading.note, note].filter(Boolean).join(" ") };

/**
 * A target may lie on its side or head: the turn in which its patches come nearest to what they should be, or most edges can be read.
 * Null where no turn has the target's proportions, or its patches are read in none.
 */
function turnsOf(picture: Picture, sheet: Quad, layout: TargetLayout, reference: ReferenceValues | null): TargetRead["turns"] | null {
  const possible = ([0, 1, 2, 3] as const).filter((turns) => isAlike(sheet, layout, turns));
  const misfits = possible.map((turns) => {
    const map = mapOf(sheet, layout, turns);
    if (!reference) return layout.edges.filter((edge) => isUnread(readEdge(picture, map, edge))).length;
    const differences = comparedPatches(picture, map, layout, reference).flatMap(({ deltaE }) => deltaE ?? []);
    return differences.length === 0 ? Number.POSITIVE_INFINITY : median(differences);
  });
  const least = Math.min(...misfits);
  return Number.isFinite(least) ? (possible[misfits.indexOf(least)] ?? null) : null;
}

const isUnread = (edge: EdgeRead | null): boolean => edge === null || "refused" in edge.response;

/** Proportions that differ by more cannot be the same sheet; one held at an angle differs by less. */
const MOST_MISFIT = 0.15;

function isAlike(sheet: Quad, { sheet: size }: TargetLayout, turns: number): boolean {
  const width = Math.hypot(sheet.topRight.x - sheet.topLeft.x, sheet.topRight.y - sheet.topLeft.y);
  const height = Math.hypot(sheet.bottomLeft.x - sheet.topLeft.x, sheet.bottomLeft.y - sheet.topLeft.y);
  const asked = turns % 2 === 0 ? size.widthMm / size.heightMm : size.heightMm / size.widthMm;
  return Math.abs(Math.log(width / height / asked)) <= Math.log(1 + MOST_MISFIT);
}

/** From mm on the target, as it is described, to the frame. */
function mapOf(sheet: Quad, { sheet: size }: TargetLayout, turns: TargetRead["turns"]): Homography {
  const corners = [sheet.topLeft, sheet.topRight, sheet.bottomRight, sheet.bottomLeft] as const;
  // turned clockwise, what was the top left corner is seen one corner further on
  const corner = (index: number) => corners[(index + turns) % 4] as (typeof corners)[0];
  return homographyFromMm(size.widthMm, size.heightMm, {
    topLeft: corner(0),
    topRight: corner(1),
    bottomRight: corner(2),
    bottomLeft: corner(3),
  });
}

function comparedPatches(picture: Picture, map: Homography, layout: TargetLayout, reference: ReferenceValues | null): PatchCompared[] {
  return patchesOf(layout).flatMap((patch) => {
    const read = readPatch(picture, map, patch);
    if (!read) return [];
    const truth = reference?.patches.get(patch.id) ?? null;
    return [{ ...read, truth, deltaE: truth && ciede2000(truth, read.colour) }];
  });
}

function ppiAt(map: Homography, { sheet }: TargetLayout, turns: number): { x: number; y: number } {
  const { alongX, alongY } = scaleAt(map, sheet.widthMm / 2, sheet.heightMm / 2);
  return turns % 2 === 0 ? { x: 25.4 * alongX, y: 25.4 * alongY } : { x: 25.4 * alongY, y: 25.4 * alongX };
}

function scaleFigure(
  ppi: { x: number; y: number },
  claimed: { x: number | null; y: number | null },
  { sheet, sheetDoubtMm }: TargetLayout,
): TargetReading {
  const name = "reproductionScalePercent";
  if (claimed.x === null) return { name, absent: "the file says no pixels per inch" };
  const errors = [100 * (claimed.x / ppi.x - 1), 100 * ((claimed.y ?? claimed.x) / ppi.y - 1)];
  const value = Math.max(...errors.map(Math.abs));
  if (!sheetDoubtMm) return { name, value };
  const doubt = (100 * sheetDoubtMm) / Math.min(sheet.widthMm, sheet.heightMm);
  return {
    name,
    value,
    note: `Give or take ${doubt.toFixed(1)} %: read from the size of the sheet, which may be ${sheetDoubtMm} mm off. Its ruler is not read; hold it against a true one.`,
  };
}
