import type { Structure } from "./structures.ts";

/** Linear light of the sRGB primaries. */
export type Light = readonly [red: number, green: number, blue: number];

/** Lossy files keep lightness finer than colour, which they smear over blocks of 16 pixels (ITU-T T.81 with 4:2:0; the limit is ours). */
const COLOUR_ALONE_DELTA_L = 1;
/** Such a block at 200 pixels per inch; what is broader holds more than what its neighbours gave it. */
const SMEARED_MM = 2;

/** A broad patch of white light more or less may be light; what is small or thin may lie on the print or on the glass. */
export function doubtOf(
  { kind, areaMm2, lengthMm, deltaL }: Pick<Structure, "kind" | "areaMm2" | "lengthMm" | "deltaL">,
  light: "more" | "less" | null,
): string | null {
  if (kind === "patch" && light === "more") return "A reflection in the newer capture looks the same. Look at the print.";
  if (kind === "patch" && light === "less")
    return "Shadow in the newer capture, or a reflection in the older one, looks the same. Look at the print.";
  if (kind === "line") return "A hair or a thread on the print or the glass looks the same. Look at the print.";
  if ((kind === "spot" || areaMm2 / lengthMm < SMEARED_MM) && Math.abs(deltaL) < COLOUR_ALONE_DELTA_L)
    return "It differs in colour alone: a file that was saved with loss looks the same. Look at the print.";
  if (areaMm2 < 1) return "Dust on the print or the glass looks the same. Look at the print.";
  return null;
}

/** Linear light that no more than doubles from one channel to another counts as white, as lamps and windows are roughly (own). */
const LEAST_WHITE = 0.5;

/**
 * Whether the difference is white light that is added or missing, whatever colour lies under it: a reflection adds the light of its
 * source, where a stain or a fading takes or gives each channel its own share.
 */
export function addedLight(expected: Light, found: Light): "more" | "less" | null {
  const steps = found.map((value, channel) => value - (expected[channel] as number));
  const [least, most] = [Math.min(...steps), Math.max(...steps)];
  if (least > 0) return least >= LEAST_WHITE * most ? "more" : null;
  return most < 0 && most <= LEAST_WHITE * least ? "less" : null;
}

/** How far the light of a reflection reaches beyond where it is strong, mm (own). */
const LIGHT_SPREADS_MM = 3;

/** What lies beside a patch that may be light may be the rest of it. */
export function doubtedByNeighbours(structure: Structure, _at: number, all: readonly Structure[]): Structure {
  if (structure.doubt !== null) return structure;
  const isBeside = all.some(
    ({ kind, doubt, box }) => kind === "patch" && doubt !== null && gapBetween(box, structure.box) <= LIGHT_SPREADS_MM,
  );
  return isBeside
    ? { ...structure, doubt: "It lies beside a place that may be a reflection or its shadow. Look at the print." }
    : structure;
}

/** mm between two boxes, 0 where they meet. */
function gapBetween(one: Structure["box"], other: Structure["box"]): number {
  const along = (from: number, length: number, otherFrom: number, otherLength: number) =>
    Math.max(0, otherFrom - from - length, from - otherFrom - otherLength);
  return Math.hypot(along(one.left, one.width, other.left, other.width), along(one.top, one.height, other.top, other.height));
}
