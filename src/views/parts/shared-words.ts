import { isPresent, type Reading } from "#domain/measure/reading.ts";

/** What several readings of a group say alike, to be said once for all of them. */
export type SharedWords = { readonly isReason: boolean; readonly words: string; readonly of: readonly Reading[] };

/** A reading's note, or the reason why nothing was read; empty where it says neither. */
export const wordsOf = (reading: Reading): string => (isPresent(reading) ? (reading.note ?? "") : reading.absent);

/**
 * Every note and reason that more than one reading gives, in the order of the first that gives it. Only whole ones: a sentence of a note
 * may lean on the one before it.
 */
export function sharedWords(readings: readonly Reading[]): SharedWords[] {
  const said = new Map<string, { isReason: boolean; words: string; of: Reading[] }>();
  for (const reading of readings) {
    const [isReason, words] = [!isPresent(reading), wordsOf(reading)];
    if (words === "") continue;
    const known = said.get(`${isReason} ${words}`) ?? { isReason, words, of: [] };
    known.of.push(reading);
    said.set(`${isReason} ${words}`, known);
  }
  return [...said.values()].filter(({ of }) => of.length > 1);
}
