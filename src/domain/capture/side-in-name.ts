import type { Side } from "./capture.ts";
import { restAfterNumber } from "./match-to-print.ts";

/**
 * Recto and verso are the trade's words and mean nothing else, so they count anywhere; r and v are their letters in cataloguing
 * (12r, 12v). Front and back are everyday words too and must be all that stands between two signs: a "back garden" is no back.
 */
const ANYWHERE = new Map<string, Side>([
  ["recto", "front"],
  ["verso", "back"],
]);
const ALONE = new Map<string, Side>([...ANYWHERE, ["r", "front"], ["v", "back"], ["front", "front"], ["back", "back"]]);

/**
 * The side that a file says it shows, in a part of its name after the print's object number: 1978.004.12_back.tif,
 * 1978.004.12 verso.tif, 1978.004.12_back_2.tif. Letters of one kind alone (a, b, f) count files as often as sides, and say nothing.
 * @param number the object number that the name starts with
 * @returns null when nothing is said, or both sides are
 */
export function sideInName(fileName: string, number: string): Side | null {
  const rest = restAfterNumber(fileName, number);
  if (rest === null) return null;
  const parts = rest.toLowerCase().split(/[._,;()[\]–-]+/);
  const said = new Set(parts.flatMap(sidesOf));
  const [side] = said;
  return said.size === 1 ? (side ?? null) : null;
}

function sidesOf(part: string): Side[] {
  const words = part.trim().split(/\s+/);
  const uncounted = words.filter((word) => !/^\d+$/.test(word)).join(" ");
  const side = ALONE.get(uncounted) ?? ALONE.get(uncounted.replace(/^([a-z]{2,})\d+$/, "$1"));
  return side ? [side] : words.flatMap((word) => ANYWHERE.get(word) ?? []);
}
