import { type SQL, sql } from "drizzle-orm";
import { schema } from "../client.ts";

const { captures, originals } = schema;

/** Parts of the same bed, in the order it was divided. */
const parts = (upTo: SQL) => sql`(select count(*) from captures part
  where part.original_id = ${captures.originalId} and part.region is not null and not part.divided ${upTo})`;

/** What a capture is called: its file, and which part of a bed it is. To be selected from captures joined with originals. */
export const captureName = sql<string>`case when ${captures.region} is null or ${captures.divided} then ${originals.originalName}
  else ${originals.originalName} || ' (part ' || ${parts(sql`and part.id <= ${captures.id}`)} || ' of ' || ${parts(sql``)} || ')' end`;
