import { isPresent, type Reading } from "#domain/measure/reading.ts";

/** What several readings of a group say alike, to be said once for all of them. */
export type SharedWords = { readonly isReason: boolean; readonly words: string; readonly of: readonly Reading[] };

/** Sentences of a note; a reason why nothing was read is one, whatever stands in it. */
export const sentencesOf = (reading: Reading): string[] =>
  isPresent(reading) ? (reading.note?.split(/(?<=[.!?]) (?=\p{Lu})/u) ?? []) : [reading.absent];

/** Every sentence and reason that more than one reading gives, in the order of the first that gives it. */
export function sharedWords(readings: readonly Reading[]): SharedWords[] {
  const said = new Map<string, { isReason: boolean; words: string; of: Reading[] }>();
  for (const reading of readings) {
    const isReason = !isPresent(reading);
    for (const words of new Set(sentencesOf(reading))) {
      const known = said.get(`${isReason} ${words}`) ?? { isReason, words, of: [] };
      known.of.push(reading);
      said.set(`${isReason} ${words}`, known);
    }
  }
  return [...said.values()].filter(({ of }) => of.length > 1);
}
