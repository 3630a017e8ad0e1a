import type { CostPerPrint } from "./cost-per-print.ts";
import type { Pace } from "./summarise-way.ts";

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
