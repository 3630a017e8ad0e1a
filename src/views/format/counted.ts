const english = new Intl.NumberFormat("en-GB");

/** A whole number with its thousands parted: “1,204”. */
export const inFigures = (count: number): string => english.format(count);

/** A number with its noun: "1 print", "1,204 prints", "no prints" */
export function counted(count: number, one: string, many: string): string {
  if (count === 0) return `no ${many}`;
  return `${inFigures(count)} ${count === 1 ? one : many}`;
}
