import { z } from "zod";
import { chosen, passage, typed } from "../print/typed-text.ts";

/** What stands between the light and a print. */
export const GLAZINGS = {
  "not-known": "Not known",
  none: "None",
  glass: "Glass",
  "glass-uv": "Glass with UV filter",
  acrylic: "Acrylic",
  "acrylic-uv": "Acrylic with UV filter",
} as const;
export type Glazing = keyof typeof GLAZINGS;

export const isGlazing = (id: string): id is Glazing => Object.hasOwn(GLAZINGS, id);

/** A stretch of days on which a print was in the light; `endsOn` null: it still is. Days are YYYY-MM-DD, both belong to it. */
export type Display = {
  readonly id: number;
  readonly printId: number;
  readonly startsOn: string;
  readonly endsOn: string | null;
  readonly lux: number;
  readonly hoursPerDay: number;
  readonly glazing: Glazing;
  readonly note: string | null;
};

const day = (message: string) =>
  typed(20).transform((text, issues) => {
    if (text === "") return null;
    const at = Date.parse(`${text}T00:00:00Z`);
    if (/^\d{4}-\d\d-\d\d$/.test(text) && !Number.isNaN(at) && new Date(at).toISOString().startsWith(text)) return text;
    issues.addIssue({ code: "custom", message });
    return z.NEVER;
  });

const amount = (least: number, most: number, message: string) =>
  typed(20).transform((text, issues) => {
    const number = Number(text.replace(",", "."));
    if (/^\d{1,6}([.,]\d{1,2})?$/.test(text) && number >= least && number <= most) return number;
    issues.addIssue({ code: "custom", message });
    return z.NEVER;
  });

/** Days on display, as a form gives them. */
export const displayInput = z
  .object({
    startsOn: day("Write the first day as 2026-03-01.").refine(
      (text) => text !== null,
      "Write the first day on display, such as 2026-03-01.",
    ),
    endsOn: day("Write the last day as 2026-05-31, or leave it empty while the print is on display."),
    lux: amount(0.1, 200_000, "Write the light on the print in lux, such as 50."),
    hoursPerDay: amount(0.1, 24, "Write how many hours a day the light is on, from 0.1 to 24."),
    glazing: chosen(isGlazing, "Choose what stands before the print from the list.").transform((id): Glazing => id ?? "not-known"),
    note: passage(1000),
  })
  .refine(({ startsOn, endsOn }) => startsOn === null || endsOn === null || endsOn >= startsOn, {
    path: ["endsOn"],
    message: "The last day lies before the first one.",
  })
  .transform(({ startsOn, ...rest }) => ({ ...rest, startsOn: startsOn ?? "" }));
export type DisplayInput = z.output<typeof displayInput>;
