import type { GridPlane } from "../planes/grid-plane.ts";
import { glance, type Sameness, sameness, verdictOn } from "./likeness.ts";

/** A capture that may show the same: what it is a capture of, where that is known, and the turns that bring it to lie as the one asked for. */
export type Candidate = { readonly of: string | number; readonly quarters: number };

/** At most so many are looked at closely where nothing else is said, however many look alike at a glance: it bounds the time. */
const CLOSE_LOOKS = 6;
/** Pictures whose detail agrees less than this at a glance are not looked at closely. Own, see the tests. */
const WORTH_A_LOOK = 0.3;

/**
 * How far each candidate shows the same as the one asked for. Each is glanced at, then looked at closely, likeliest at a glance
 * first; once one capture of a print is known to be the same, no other of that print is looked at, while other prints still are,
 * since two prints of one negative both show it.
 * @param planesOf both pictures, the one asked for first; null where one is not there any more
 * @param most so many are looked at closely at the most
 * @returns in the order of the candidates; null for those that were not looked at closely or could not be laid on it
 */
export async function lookAmong<T extends Candidate>(
  candidates: readonly T[],
  planesOf: (candidate: T) => Promise<readonly [GridPlane, GridPlane] | null>,
  most = CLOSE_LOOKS,
): Promise<(Sameness | null)[]> {
  const glances: { candidate: T; index: number; seen: number }[] = [];
  for (const [index, candidate] of candidates.entries()) {
    const planes = await planesOf(candidate);
    const seen = planes && glance(...planes, candidate.quarters);
    if (seen !== null && seen >= WORTH_A_LOOK) glances.push({ candidate, index, seen });
  }
  const found = new Array<Sameness | null>(candidates.length).fill(null);
  const settled = new Set<string | number>();
  let looks = 0;
  for (const { candidate, index } of glances.sort((a, b) => b.seen - a.seen)) {
    if (looks === most) break;
    if (settled.has(candidate.of)) continue;
    const planes = await planesOf(candidate);
    const same = planes && sameness(...planes, candidate.quarters);
    looks++;
    found[index] = same;
    if (same && verdictOn(same) === "same") settled.add(candidate.of);
  }
  return found;
}
