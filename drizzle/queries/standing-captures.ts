import { type SQL, sql } from "drizzle-orm";
import { schema } from "../client.ts";

const { captures } = schema;

/** A capture that counts as one: a bed that was divided has its parts for that, and one that was put away counts nowhere. */
export const STANDS: SQL = sql`(not ${captures.divided} and ${captures.putAwayAt} is null)`;

/** The same of a capture under another name, in a condition that is written out. */
export const standsAs = (alias: string): SQL => sql.raw(`(not ${alias}.divided and ${alias}.put_away_at is null)`);
