import { type Circumstances, circumstancesOf } from "#domain/condition/cautions-for.ts";
import type { Print } from "#domain/print/print.ts";
import type { Queryable } from "#drizzle/client.ts";
import { enclosureMaterialAt } from "#drizzle/queries/places.ts";

/** What cautions depend on, for a print as it is recorded and where it is kept. */
export const circumstancesOfPrint = (
  db: Queryable,
  print: Parameters<typeof circumstancesOf>[0] & Pick<Print, "placeId">,
  today: string,
  findings?: Circumstances["findings"],
): Circumstances => circumstancesOf(print, today, findings, enclosureMaterialAt(db, print.placeId));
