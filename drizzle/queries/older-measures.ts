import { sql } from "drizzle-orm";
import { MEASURE_NAMES, MEASURES } from "#domain/measure/catalogue.ts";
import type { Queryable } from "../client.ts";
import { standsAs } from "./standing-captures.ts";

const VERSIONS = Object.fromEntries(MEASURE_NAMES.map((name) => [name, MEASURES[name].version]));

/**
 * Captures of which something was last read by an older version of its method than this program has, oldest first. Those that wait for
 * measuring, run, failed or were cancelled are left out: that is told elsewhere. So is what was read by a comparison, as long as one of that
 * side is not done: it renews the readings by itself, and where it failed, measuring each capture again would not.
 * @param versions the versions that count as new, by measure
 */
export function listMeasuredByOlderVersions(db: Queryable, versions: Readonly<Record<string, number>> = VERSIONS): number[] {
  return db
    .all<{ id: number }>(
      sql`select captures.id from captures
        where captures.id in (
          select measure_sets.capture_id from json_each(${JSON.stringify(versions)}) as latest
            join measures on measures.name = latest.key and measures.method_version < latest.value
            join measure_sets on measure_sets.id = measures.set_id and measure_sets.current
            where measure_sets.family = 'alone' or measure_sets.capture_id not in (
              select compared.id from work join captures as compared on compared.print_id = work.print_id and compared.side = work.side
                where work.kind = 'compare' and work.state <> 'done'))
          and ${standsAs("captures")}
          and not exists (select 1 from work where work.kind = 'measure' and work.capture_id = captures.id and work.state <> 'done')
        order by captures.id`,
    )
    .map(({ id }) => id);
}
