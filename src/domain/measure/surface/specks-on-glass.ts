import type { Point } from "../picture.ts";
import type { OfOne, Placed } from "./specks-of-each.ts";

type Seen = Pick<OfOne, "seenCm2"> & { readonly specks: readonly Pick<Placed, "glass" | "print">[] };

/**
 * How many specks of each capture stand at one place of the frame in another capture too, while the print lay elsewhere: dust of the glass.
 * Of n and m specks strewn by chance over A mm² some n m π r² / A meet within r, and as a Poisson count seldom more than three of its square
 * roots beyond that. Unless more meet, and three at least, none are told. Source: own.
 */
export function specksOnGlass(perCapture: readonly Seen[]): number[] {
  return perCapture.map((own, index) => {
    const others = perCapture.filter((_, k) => k !== index);
    const met = own.specks.filter((one) => others.some(({ specks }) => specks.some((other) => isOneOfGlass(one, other)))).length;
    const byChance = others.reduce((sum, other) => sum + meetings(own, other), 0);
    return met < FEWEST || met <= byChance + 3 * Math.sqrt(byChance) ? 0 : met;
  });
}

/** Specks of two captures at one place of the glass: so near in the frame, and so far apart on the print. */
const SAME_MM = 0.4;
const MOVED_MM = 2;
const FEWEST = 3;

const isOneOfGlass = (one: Seen["specks"][number], other: Seen["specks"][number]): boolean =>
  apart(one.glass, other.glass) < SAME_MM && apart(one.print, other.print) > MOVED_MM;

/** At most: where the two lie wholly over each other in the frame. */
const meetings = (one: Seen, other: Seen): number =>
  (one.specks.length * other.specks.length * Math.PI * SAME_MM ** 2) / (100 * Math.max(one.seenCm2, other.seenCm2));

const apart = (one: Point, other: Point): number => Math.hypot(one.x - other.x, one.y - other.y);
