export type Changes<Record> = { from: Partial<Record>; to: Partial<Record> };

/** What follows from other fields of a print and needs no line of its own in the history. */
const WORKED_OUT: readonly string[] = ["objectNumberSort", "dateEarliest", "dateLatest"];

/** The fields in which two records differ, with what stood there and what stands there now. */
export function changedFields<Record extends object>(before: Partial<Record>, after: Record): Changes<Record> {
  const names = (Object.keys(after) as (keyof Record & string)[]).filter(
    (name) => !WORKED_OUT.includes(name) && !isSame(before[name], after[name]),
  );
  const pick = (record: Partial<Record>) =>
    Object.fromEntries(names.map((name) => [name, record[name] ?? null])) as unknown as Partial<Record>;
  return { from: pick(before), to: pick(after) };
}

/** Texts, numbers and lists of texts; nothing and an empty list say the same. */
const isSame = (a: unknown, b: unknown): boolean => JSON.stringify(emptied(a)) === JSON.stringify(emptied(b));

const emptied = (value: unknown): unknown =>
  value === undefined || value === "" || (Array.isArray(value) && value.length === 0) ? null : value;
