import { z } from "zod";
import { isDay } from "../print/calendar.ts";
import { passage, typed } from "../print/typed-text.ts";
import { type TargetLayout, targetLayout } from "./layout.ts";
import { PRINTED_PAGE } from "./printed-page.ts";
import { readReferenceValues } from "./reference-values.ts";

/** Texts that come with a target are small. */
export const MOST_TEXT_BYTES = 500_000;

const layout = z.string().transform((text, issues): TargetLayout => {
  if (text.trim() === "") return PRINTED_PAGE;
  const read = targetLayout.safeParse(jsonOf(text));
  if (read.success) return read.data;
  const [first] = read.error.issues;
  const where = first && first.path.length > 0 ? ` at ${first.path.join(".")}` : "";
  issues.addIssue({ code: "custom", message: `This is no layout of a target${where}: ${first?.message ?? "it cannot be read"}` });
  return z.NEVER;
});

/** What is said of a target check, by a form or the command line; without a layout it is the page that the program prints. */
export const targetCheckInput = z.object({
  layout,
  reference: z
    .string()
    .max(MOST_TEXT_BYTES)
    .transform((text, issues) => {
      if (text.trim() === "") return null;
      const read = readReferenceValues(text);
      if (read.ok) return text;
      for (const { happened, remedy } of read.refusals) issues.addIssue({ code: "custom", message: `${happened} ${remedy}` });
      return z.NEVER;
    }),
  referenceName: z
    .string()
    .max(500)
    .transform((text) => (text === "" ? null : text)),
  takenOn: typed(20).refine((text) => text === "" || isDay(text), "Write the day as 2026-03-01, or leave it empty."),
  note: passage(1000),
});
export type TargetCheckInput = z.output<typeof targetCheckInput>;

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
