import { chosen } from "./typed-text.ts";

const CURRENCIES = new Set(Intl.supportedValuesOf("currency"));
const isCurrency = (text: string): text is string => CURRENCIES.has(text.toUpperCase());

/** The three letters of ISO 4217, in capitals; null when empty. */
export const currency = chosen(isCurrency, "Write the currency as its three letters, such as EUR (ISO 4217).").transform(
  (code) => code?.toUpperCase() ?? null,
);
