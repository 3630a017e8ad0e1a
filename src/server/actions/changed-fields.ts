import type { PrintValues } from "#drizzle/queries/prints.ts";

export type Changes = { from: Partial<PrintValues>; to: Partial<PrintValues> };

/** What follows from other fields and needs no line of its own in the history. */
const WORKED_OUT: readonly (keyof PrintValues)[] = ["objectNumberSort", "dateEarliest", "dateLatest"];

/** The fields in which two records differ, with what stood there and what stands there now. */
export function changedFields(before: Partial<PrintValues>, after: PrintValues): Changes {
  const names = (Object.keys(after) as (keyof PrintValues)[]).filter(
    (name) => !WORKED_OUT.includes(name) && !isSame(before[name], after[name]),
  );
  const pick = (record: Partial<PrintValues>) => Object.fromEntries(names.map((name) => [name, record[name] ?? null]));
  return { from: pick(before), to: pick(after) };
}

/** Texts, numbers and lists of texts; nothing and an empty list say the same. */
const isSame = (a: unknown, b: unknown): boolean => JSON.stringify(emptied(a)) === JSON.stringify(emptied(b));

const emptied = (value: unknown): unknown =>
  value === undefined || value === "" || (Array.isArray(value) && value.length === 0) ? null : value;
