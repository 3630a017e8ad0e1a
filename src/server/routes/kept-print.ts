import type { Context as Request } from "hono";
import type { Print } from "#domain/print/print.ts";
import { findPrint } from "#drizzle/queries/prints.ts";
import type { Context } from "../context.ts";
import { idIn } from "./form.ts";

/** The print that a path names, or null where there is none or it lies in the bin. */
export function keptPrintIn({ db }: Context, c: Request): Print | null {
  const id = idIn(c);
  const print = id === null ? null : findPrint(db, id);
  return print?.binnedAt === null ? print : null;
}
