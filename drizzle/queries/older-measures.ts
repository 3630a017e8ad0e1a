import { sql } from "drizzle-orm";
import { MEASURE_NAMES, MEASURES } from "#domain/measure/catalogue.ts";
import type { Queryable } from "../client.ts";
import { standsAs } from "./standing-captures.ts";

const VERSIONS = Object.fromEntries(MEASURE_NAMES.map((name) => [name, MEASURES[name].version]));

/**
 * Captures of which something was last read by an older version of its method than this program has, oldest first. Those that wait for
 * measuring, run, failed or were cancelled are left out: that is told elsewhere.
 * @param versions the versions that count as new, by measure
 */
export function listMeasuredByOlderVersions(db: Queryable, versions: Readonly<Record<string, number>> = VERSIONS): number[] {
  return db
    .all<{ id: number }>(
      sql`select captures.id from captures
        where captures.id in (
          select measure_sets.capture_id from json_each(${JSON.stringify(versions)}) as latest
            join measures on measures.name = latest.key and measures.method_version < latest.value
            join measure_sets on measure_sets.id = measures.set_id and measure_sets.current)
          and ${standsAs("captures")}
          and not exists (select 1 from work where work.kind = 'measure' and work.capture_id = captures.id and work.state <> 'done')
        order by captures.id`,
    )
    .map(({ id }) => id);
}
