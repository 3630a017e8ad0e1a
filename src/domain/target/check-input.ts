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
export type TargetCheckInput = Omit<z.output<typeof targetCheckInput>, "layout"> & {
  /** null for a plain sheet that fills the frame */
  readonly layout: TargetLayout | null;
};

/** What is said of a picture of an even sheet: all of a check but the target. */
export const evenSheetInput = targetCheckInput
  .pick({ takenOn: true, note: true })
  .transform((said): TargetCheckInput => ({ ...said, layout: null, reference: null, referenceName: null }));

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

/** What the parts of a check are called, and what is asked of each, wherever it is said. */
export const CHECK_WORDS = {
  picture: { label: "Picture of the target", hint: "As it comes from the camera or scanner; it is kept as it is" },
  layout: { label: "Layout of the target", hint: "Where things lie on it, as JSON; without it, the page that this program prints" },
  reference: {
    label: "Reference values",
    hint: "The text file that came with the target (CGATS.17); without it, tone and colour are not read",
  },
  takenOn: { label: "Taken on", hint: "As 2026-03-01; without it, as the file says, or today" },
  note: { label: "Note", hint: "What was changed since the last check" },
} as const;
