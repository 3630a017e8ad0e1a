import type { Print } from "#domain/print/print.ts";
import type { Typed } from "./field.tsx";
import { PRINT_LABELS } from "./print-fields.tsx";

/** A record as the form shows it: the text of every field, and the revision it was read at. */
export function typedFromPrint(print: Print): Typed {
  const fields = Object.entries(print).filter(([name]) => name in PRINT_LABELS || name === "revision");
  return Object.fromEntries(
    fields.map(([name, value]) => [name, Array.isArray(value) ? value.join("\n") : value === null ? "" : String(value)]),
  );
}
