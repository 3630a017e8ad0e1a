import { type PrintFilter, printFilterQuery } from "#domain/print/print-filter.ts";

export type PrintsView = "table" | "sheet";

/** The address that shows what a filter means, as a table or as a contact sheet. */
export function printsAddress(filter: PrintFilter, view: PrintsView): string {
  const query = new URLSearchParams(printFilterQuery(filter));
  if (view === "sheet") query.set("view", "sheet");
  return query.size === 0 ? "/prints" : `/prints?${query}`;
}
