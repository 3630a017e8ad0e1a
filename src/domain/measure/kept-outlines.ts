import { z } from "zod";
import { cornersOf, eachSide } from "./lines.ts";
import { largestOutline } from "./measure-capture.ts";
import type { Quad } from "./picture.ts";
import { quadSchema } from "./quad-schema.ts";
import type { Outline } from "./reading.ts";

const side = z.enum(["seen", "assumed", "cut-off"]);
const sides = z.object({ top: side, right: side, bottom: side, left: side });
const radial = z.number().optional();
const doubted = z.array(z.enum(["top", "right", "bottom", "left"])).optional();
const isSaid = z.boolean().optional();
const kept = z.object({
  found: z.array(
    z.object({ sheet: quadSchema, image: quadSchema.nullable(), sides, cornerSpreadPx: z.number().optional(), doubted, radial, isSaid }),
  ),
});

/** What a set of readings rests on, as it was kept; null before a capture was measured. */
type KeptSet = { readonly basis: unknown } | null;

/** Where the last measuring found prints and which of their sides it saw; none before a capture was measured. */
export function foundOutlines(set: KeptSet): Pick<Outline, "sheet" | "image" | "sides" | "radial">[] {
  const read = kept.safeParse(set?.basis);
  return read.success ? read.data.found : [];
}

/** The same with how sure the corners are; those kept without it are left out. */
function keptOutlines(set: KeptSet): Outline[] {
  const read = kept.safeParse(set?.basis);
  return read.success
    ? read.data.found.flatMap(({ cornerSpreadPx, ...rest }) => (cornerSpreadPx === undefined ? [] : [{ ...rest, cornerSpreadPx }]))
    : [];
}

/** Where the print lay when its capture was measured, with how sure that is: the largest of those found, or the one that a person had said. */
export const measuredOutline = (set: KeptSet): Outline | null => largestOutline(keptOutlines(set));

/** Where the print lies now: as a person said, who saw all its sides, also before it was measured anew; else the largest that was found. */
export function standingOutline(said: Quad | null, set: KeptSet): Pick<Outline, "sheet" | "image" | "sides" | "radial"> | null {
  const found = foundOutlines(set);
  if (!said) return largestOutline(found);
  const same = found.find(({ sheet }) => isSame(sheet, said));
  const sides = same?.sides ?? eachSide(() => "seen" as const);
  return { sheet: said, image: same?.image ?? null, sides, ...(same?.radial !== undefined && { radial: same.radial }) };
}

function isSame(one: Quad, other: Quad): boolean {
  const others = cornersOf(other);
  return cornersOf(one).every(({ x, y }, index) => x === others[index]?.x && y === others[index]?.y);
}
