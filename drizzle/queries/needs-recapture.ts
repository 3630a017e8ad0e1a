import { type SQL, sql } from "drizzle-orm";
import type { Side } from "#domain/capture/capture.ts";
import type { RecaptureFilter } from "#domain/recapture/recapture-filter.ts";
import { standsAs } from "./standing-captures.ts";

// Conditions on a row of prints that say the same as the recapture list does, for the first purpose where none is named. Written as
// plain names: in a select of one table the builder drops the table's name, and several tables here have an id.

const C_STANDS = standsAs("c");

/** Prints that have to be captured again for the first purpose, or for the reason given. */
export function needsRecapture(wanted: Exclude<RecaptureFilter, "any">): SQL {
  if (wanted === "needed") return sql`(${FRONT_WITHOUT_CAPTURE} or ${fallsShort()})`;
  return wanted === "no-capture" ? FRONT_WITHOUT_CAPTURE : fallsShort({ measure: wanted });
}

/** The best capture of a side lacks something; one that has left that side since the choice no longer counts. */
export function fallsShort({ side, measure, purposeId }: { side?: Side; measure?: string; purposeId?: number } = {}): SQL {
  return sql`exists (
    select 1 from choices ch
    join shortfalls s on s.choice_id = ch.id
    join captures c on c.id = s.capture_id
    where ch.print_id = prints.id and ch.superseded_at is null
      and ch.purpose_id = ${purposeId ?? FIRST_PURPOSE}
      and c.print_id = ch.print_id and c.side = ch.side and ${C_STANDS}
      and not exists (
        select 1 from recapture_exemptions e
        where e.print_id = ch.print_id and e.side = ch.side and e.purpose_id = ch.purpose_id and ${EXEMPTION_HOLDS})
      and not ${A_BETTER_ONE_WAITS}
      ${side === undefined ? sql`` : sql`and ch.side = ${side}`}
      ${measure === undefined ? sql`` : sql`and s.measure = ${measure}`})`;
}

/** A later capture that meets the aim was proposed in the place of the choice `ch`: an answer is wanted, not another capture. */
export const A_BETTER_ONE_WAITS = sql`exists (select 1 from proposals p where p.choice_id = ch.id and p.answer is null)`;

/**
 * Whether an exemption `e` still holds. Good enough was said of a capture by an aim: it ends with either. Not to be asked for a first
 * capture holds until there is one, whatever the purpose.
 */
export const EXEMPTION_HOLDS = sql`e.taken_back_at is null and (
  (e.capture_id is null and not exists (
    select 1 from captures c where c.print_id = e.print_id and c.side = e.side and ${C_STANDS}))
  or (exists (select 1 from aims a where a.id = e.aim_id and a.current = 1) and exists (
    select 1 from captures c where c.id = e.capture_id and c.print_id = e.print_id and c.side = e.side and ${C_STANDS})))`;

const FIRST_PURPOSE = sql`(select id from purposes order by position limit 1)`;

/** A front that nobody captured, and that nobody said is not to be. */
export const FRONT_WITHOUT_CAPTURE = sql`not exists (
  select 1 from captures c where c.print_id = prints.id and c.side = 'front' and ${C_STANDS})
  and not exists (
    select 1 from recapture_exemptions e
    where e.print_id = prints.id and e.side = 'front' and e.capture_id is null and e.taken_back_at is null)`;
