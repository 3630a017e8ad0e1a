import type { CostPerPrint } from "./cost-per-print.ts";
import type { Pace, WaySummary } from "./summarise-way.ts";
import type { NamedWays } from "./verdict-in-words.ts";

/** Minutes a print, and what they are worked out from. */
export const paceInWords = (pace: Pace): string =>
  "absent" in pace ? `minutes not known: ${pace.absent}` : `${pace.minutes.toFixed(1)} min a print (median of ${pace.steps} steps)`;

/** What the equipment costs a print, and what that is worked out from. */
export function costInWords(cost: CostPerPrint): string {
  if ("absent" in cost) return `not known: ${cost.absent}`;
  const { perPrint, price, prints, leftOut } = cost;
  const without = leftOut === 0 ? "" : `; ${leftOut} more, by set-ups without a price or none named, left out`;
  return `${perPrint.toFixed(2)} ${price.currency} a print (${price.amount.toFixed(2)} shared by ${prints}${without})`;
}

type Effort = Pick<WaySummary, "minutes" | "cost">;

/** What one way takes against the other in time and money; what is not known, or cannot be set beside each other, is said. */
export const effortAgainst = (first: Effort, second: Effort, ways: NamedWays): string =>
  `${minutesAgainst(first.minutes, second.minutes, ways)} ${costAgainst(first.cost, second.cost, ways)}`;

function minutesAgainst(first: Pace, second: Pace, ways: NamedWays): string {
  if ("absent" in first || "absent" in second) return `Which is quicker is not known: ${whyUnknown(first, second, ways)}.`;
  return `A print takes ${first.minutes.toFixed(1)} minutes by ${ways.first} against ${second.minutes.toFixed(1)} by ${ways.second} (${first.steps} and ${second.steps} steps, each on its own prints).`;
}

function costAgainst(first: CostPerPrint, second: CostPerPrint, ways: NamedWays): string {
  if ("absent" in first || "absent" in second)
    return `Whose equipment costs less a print is not known: ${whyUnknown(first, second, ways)}.`;
  const [one, other] = [first, second].map(({ perPrint, price }) => `${perPrint.toFixed(2)} ${price.currency}`);
  const told = `Equipment costs ${one} a print by ${ways.first} and ${other} by ${ways.second}`;
  return first.price.currency === second.price.currency
    ? `${told}, shared by ${first.prints} and ${second.prints} prints.`
    : `${told}: two currencies, so which is less is not told.`;
}

function whyUnknown(first: Pace | CostPerPrint, second: Pace | CostPerPrint, ways: NamedWays): string {
  const [one, other] = [first, second].map((known) => ("absent" in known ? known.absent : null));
  if (one === other) return `by either, ${one}`;
  return [one && `by ${ways.first}, ${one}`, other && `by ${ways.second}, ${other}`].filter(Boolean).join("; ");
}
