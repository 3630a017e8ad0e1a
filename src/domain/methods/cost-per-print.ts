/** What a set-up was bought for. */
export type Price = { readonly amount: number; readonly currency: string };

/** What the equipment costs a print, with what it was worked out from; or why that cannot be told. */
export type CostPerPrint =
  | {
      readonly perPrint: number;
      readonly price: Price;
      /** prints that share it: those captured with a set-up whose price is said */
      readonly prints: number;
      /** prints captured only with set-ups without a price, or with none named: they are in neither number */
      readonly leftOut: number;
    }
  | { readonly absent: string };

/**
 * The prices of all set-ups that were used, shared out over the prints captured with them. Work is not in it: nobody wrote what an hour of
 * this collection's work costs.
 * @param priceOf by set-up; a set-up without a price is not in it
 */
export function costPerPrint(
  captures: readonly { readonly printId: number; readonly setUpId: number | null }[],
  priceOf: ReadonlyMap<number, Price>,
): CostPerPrint {
  const used = new Set(captures.flatMap(({ setUpId }) => (setUpId !== null && priceOf.has(setUpId) ? [setUpId] : [])));
  if (used.size === 0) {
    const isNamed = captures.some(({ setUpId }) => setUpId !== null);
    return { absent: isNamed ? "none of its set-ups has a price" : "its captures name no set-up" };
  }
  const prices = [...used].flatMap((setUpId) => priceOf.get(setUpId) ?? []);
  const currencies = [...new Set(prices.map(({ currency }) => currency))].sort();
  const [currency = ""] = currencies;
  if (currencies.length > 1) return { absent: `its set-ups are priced in ${currencies.join(" and ")}` };
  const sharing = new Set(captures.flatMap(({ printId, setUpId }) => (setUpId !== null && used.has(setUpId) ? [printId] : [])));
  const amount = prices.reduce((sum, price) => sum + price.amount, 0);
  const all = new Set(captures.map(({ printId }) => printId)).size;
  return { perPrint: amount / sharing.size, price: { amount, currency }, prints: sharing.size, leftOut: all - sharing.size };
}
