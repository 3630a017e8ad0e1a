import { FORMATS } from "./format.ts";
import type { PrintFormat } from "./print-format.ts";

/** With less in common the likeness is chance (no source: below it, words that mean no format begin to be answered). */
const LEAST_ALIKE = 0.4;
const MOST = 3;

/** The formats whose id or name is most like what was typed, likeliest first; none where nothing is like it. */
export function formatsMeant(typed: string): PrintFormat[] {
  return FORMATS.map((format) => ({ format, alike: Math.max(alikeness(typed, format.id), alikeness(typed, format.name)) }))
    .filter(({ alike }) => alike >= LEAST_ALIKE)
    .sort((a, b) => b.alike - a.alike)
    .slice(0, MOST)
    .map(({ format }) => format);
}

/**
 * How like a name what was typed is, 0 to 1: the mean of what share of the typed pairs of letters the name has, so that a part of a
 * name finds it, and of what both have in common (Dice's coefficient), so that the shorter name comes first. Common practice, no source.
 */
function alikeness(typed: string, name: string): number {
  const [ours, theirs] = [pairsOf(typed), pairsOf(name)];
  const both = [...ours].filter((pair) => theirs.has(pair)).length;
  return ours.size === 0 ? 0 : (both / ours.size + (2 * both) / (ours.size + theirs.size)) / 2;
}

function pairsOf(text: string): Set<string> {
  // “post card” is “postcard”, and ids have hyphens
  const letters = text
    .toLowerCase()
    .replaceAll("×", "x")
    .replaceAll(/[^\p{L}\p{N}]+/gu, "");
  return new Set(Array.from({ length: Math.max(0, letters.length - 1) }, (_, at) => letters.slice(at, at + 2)));
}
