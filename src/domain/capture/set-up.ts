import { z } from "zod";
import type { Arrangement } from "../plan/arrangement.ts";
import { METHODS, type Method } from "./method.ts";

/** A described, re-usable capture arrangement. */
export type SetUp = {
  readonly id: number;
  readonly name: string;
  readonly method: Method;
  readonly device: string | null;
  readonly lens: string | null;
  readonly light: string | null;
  readonly glass: string | null;
  readonly settings: string | null;
  readonly priceAmount: number | null;
  readonly priceCurrency: string | null;
  readonly note: string | null;
  /** the figures a plan is worked out from; null where nobody gave them */
  readonly arrangement: Arrangement | null;
  readonly revision: number;
  readonly createdAt: string;
};

const words = (most: number) =>
  z
    .string()
    .trim()
    .max(most, `Keep this under ${most} letters.`)
    .default("")
    .transform((text) => (text === "" ? null : text));

/** A set-up as a form or the command line gives it: texts in, typed values out. */
export const setUpInput = z
  .object({
    name: z
      .string()
      .trim()
      .min(1, "Give the set-up a name you will know again, e.g. Copy stand by the window.")
      .max(120, "Keep the name under 120 letters."),
    method: z.enum(METHODS, "Choose one of the methods."),
    device: words(200),
    lens: words(200),
    light: words(500),
    glass: words(200),
    settings: words(2000),
    priceAmount: z
      .string()
      .trim()
      .default("")
      .refine((text) => text === "" || /^\d{1,9}([.,]\d{1,2})?$/.test(text), "Write the price as a plain number, e.g. 250 or 249.90.")
      .transform((text) => (text === "" ? null : Number(text.replace(",", ".")))),
    priceCurrency: z
      .string()
      .trim()
      .toUpperCase()
      .default("")
      .refine((text) => text === "" || /^[A-Z]{3}$/.test(text), "Write the currency as three letters, e.g. EUR (ISO 4217).")
      .transform((text) => (text === "" ? null : text)),
    note: words(2000),
  })
  .refine((input) => input.priceAmount === null || input.priceCurrency !== null, {
    path: ["priceCurrency"],
    message: "Say which currency the price is in, e.g. EUR.",
  });

export type SetUpInput = z.output<typeof setUpInput>;
