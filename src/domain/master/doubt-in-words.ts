import { measureInWords, valuesApart } from "../aim/measure-words.ts";
import type { Judgement } from "./judgement.ts";

/** How sure a choice is, as one sentence for the keeper; null where nothing was judged, or before it was kept. */
export function surenessInWords(
  { sureness, closeCall, decidedByBound }: Pick<Judgement, "sureness" | "closeCall" | "decidedByBound">,
  hasMaster: boolean,
): string | null {
  if (sureness === null) return null;
  if (decidedByBound && !closeCall)
    return "Not sure, although no doubt of a reading is likely to change this: what decides it was read only as “at least” or “at most”, which leaves open which of the two is better in it.";
  if (sureness === 1) return "Sure: no reading is so doubtful that it could change this.";
  // never more than is known: 0.998 is not 100 of 100
  const chances = `${Math.floor(sureness * 100)} of 100`;
  if (!closeCall) return `Sure in ${chances} chances, given how far each reading can be trusted.`;
  const what = hasMaster ? "it stays the master" : "it falls short";
  return `Given how far each reading can be trusted, ${what} in only ${chances} chances: a person should look.`;
}

/** What would turn a choice, as one sentence; null where there is no master. */
export function turnInWords({ turn, verdicts }: Pick<Judgement, "turn" | "verdicts">): string | null {
  if (turn === null) return null;
  const { reading, weight } = turn;
  const ways: string[] = [];
  if (reading) {
    const fileName = verdicts.find(({ captureId }) => captureId === reading.captureId)?.fileName ?? "a capture";
    const [to, from] = valuesApart(reading.measure, { value: reading.to, bound: null }, { value: reading.from, bound: null });
    ways.push(`${measureInWords(reading.measure)} in ${fileName} were ${to} instead of ${from}`);
  }
  if (weight) ways.push(`the weight of ${measureInWords(weight.measure)} were ${weight.to} instead of ${weight.from}`);
  return ways.length === 0
    ? "No change of one reading or of one weight alone would turn it."
    : `It would turn if ${ways.join(", or if ")}.`;
}
