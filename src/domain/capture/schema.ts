import { z } from "zod";
import { isDay } from "../print/calendar.ts";
import { SIDES } from "./capture.ts";
import { METHODS } from "./method.ts";

const blankIsAbsent = (value: unknown) => (typeof value === "string" && value.trim() === "" ? undefined : value);
const emptyIsAbsent = (value: unknown) => (value === "" || value === null ? undefined : value);
const id = z.coerce.number().int().positive();

/** What a keeper may say of a capture when taking it in or assigning it: one schema for form and command line. */
export const captureInput = z.object({
  printId: z.preprocess(emptyIsAbsent, id.optional()),
  side: z.preprocess(emptyIsAbsent, z.enum(SIDES, "Choose front or back.").optional()),
  method: z.preprocess(emptyIsAbsent, z.enum(METHODS, "Choose one of the methods in the list.").optional()),
  setUpId: z.preprocess(emptyIsAbsent, id.optional()),
  /** the day on which it was made, where the file does not say or its clock was wrong */
  saidDay: z.preprocess(
    emptyIsAbsent,
    z.string().trim().refine(isDay, "Write the day as year-month-day, such as 2009-05-31, or leave it empty.").optional(),
  ),
  /** why the method was used although a caution forbids it for the print */
  despite: z.preprocess(blankIsAbsent, z.string().trim().max(2000, "Say it in at most 2000 letters.").optional()),
});
export type CaptureInput = z.infer<typeof captureInput>;
