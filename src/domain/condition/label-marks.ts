import type { Caution } from "./caution.ts";

/** What a label has room for: the gravest cautions, and how many more the record holds. */
export type LabelMarks = { readonly marks: readonly Caution[]; readonly more: number };

/**
 * The dangers and warnings, gravest first, as many as fit. Where a print has none, nothing is marked: a label that
 * always warns is not read.
 * @param cautions gravest first
 */
export function labelMarks(cautions: readonly Caution[], most: number): LabelMarks {
  const grave = cautions.filter(({ level }) => level === "danger" || level === "warning");
  return { marks: grave.slice(0, most), more: Math.max(0, grave.length - most) };
}
