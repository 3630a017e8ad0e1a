const figure = new Intl.NumberFormat("en-GB");

/** A number with its noun: "1 print", "1,204 prints", "no prints" */
export function counted(count: number, one: string, many: string): string {
  if (count === 0) return `no ${many}`;
  return `${figure.format(count)} ${count === 1 ? one : many}`;
}
