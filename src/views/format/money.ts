/** “6.25 EUR”, or the bare number where nobody said in which currency it is. */
export const moneyInWords = (amount: number, currency: string | null): string =>
  `${amount.toFixed(2)}${currency === null ? "" : ` ${currency}`}`;
