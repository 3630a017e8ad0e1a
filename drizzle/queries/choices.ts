import { and, asc, count, desc, eq, isNull, type SQL, sql } from "drizzle-orm";
import type { Side } from "#domain/capture/capture.ts";
import type { Choice } from "#domain/master/choice.ts";
import { judgementSchema } from "#domain/master/judgement.ts";
import { type Queryable, schema } from "../client.ts";
import { A_BETTER_ONE_WAITS } from "./needs-recapture.ts";

const { choices, purposes, shortfalls, users } = schema;

export type NewChoice = Omit<Choice, "id" | "purpose" | "who" | "createdAt" | "supersededAt"> & {
  readonly purposeId: number;
  readonly userId: number | null;
};

/** What holds now for each side and purpose of a print: front before back, in the order of the purposes. */
export function listChoicesOfPrint(db: Queryable, printId: number): Choice[] {
  return select(db, and(eq(choices.printId, printId), isNull(choices.supersededAt)));
}

/** What holds now for many prints at once. */
export function listChoicesOfPrints(db: Queryable, printIds: readonly number[]): Choice[] {
  return select(db, and(isAmong(choices.printId, printIds), isNull(choices.supersededAt)));
}

/** What holds now for many prints and some purposes, where the best capture lacks something. */
export function listShortChoices(db: Queryable, of: { printIds: readonly number[]; purposeIds: readonly number[] }): Choice[] {
  const isShort = sql`exists (
    select 1 from choices ch join shortfalls s on s.choice_id = ch.id where ch.id = choices.id and not ${A_BETTER_ONE_WAITS})`;
  return select(
    db,
    and(isAmong(choices.printId, of.printIds), isAmong(choices.purposeId, of.purposeIds), isNull(choices.supersededAt), isShort),
  );
}

export function findCurrentChoice(db: Queryable, of: { printId: number; side: Side; purposeId: number }): Choice | null {
  const [found] = select(
    db,
    and(eq(choices.printId, of.printId), eq(choices.side, of.side), eq(choices.purposeId, of.purposeId), isNull(choices.supersededAt)),
  );
  return found ?? null;
}

/** Puts a choice in the place of the one that held, which stays as history. Call it in a transaction. */
export function replaceChoice(db: Queryable, made: NewChoice, now: string): number {
  db.update(choices)
    .set({ supersededAt: now })
    .where(
      and(
        eq(choices.printId, made.printId),
        eq(choices.side, made.side),
        eq(choices.purposeId, made.purposeId),
        isNull(choices.supersededAt),
      ),
    )
    .run();
  const { id } = db
    .insert(choices)
    .values({ ...made, createdAt: now })
    .returning({ id: choices.id })
    .get();
  for (const { captureId, measure } of shortfallsOfBest(made)) db.insert(shortfalls).values({ choiceId: id, captureId, measure }).run();
  return id;
}

/** Without a master, the best there is stands in for it. */
function shortfallsOfBest({ captureId, explanation }: NewChoice): { captureId: number; measure: string }[] {
  const bestId = captureId ?? explanation.bestId;
  return explanation.verdicts
    .filter((verdict) => verdict.captureId === bestId)
    .flatMap((best) => best.shortfalls.map(({ measure }) => ({ captureId: best.captureId, measure })));
}

const isAmong = (column: typeof choices.printId | typeof choices.purposeId, ids: readonly number[]): SQL =>
  sql`${column} in (select value from json_each(${JSON.stringify(ids)}))`;

const query = (db: Queryable) =>
  db
    .select({
      choice: choices,
      purpose: { id: purposes.id, key: purposes.key, name: purposes.name, note: purposes.note },
      who: users.name,
    })
    .from(choices)
    .innerJoin(purposes, eq(purposes.id, choices.purposeId))
    .leftJoin(users, eq(users.id, choices.userId))
    .$dynamic();

const select = (db: Queryable, where: SQL | undefined): Choice[] =>
  query(db).where(where).orderBy(asc(choices.printId), sql`${choices.side} = 'back'`, asc(purposes.position)).all().map(choice);

function choice(row: { choice: typeof choices.$inferSelect; purpose: Choice["purpose"]; who: string | null }): Choice {
  const { userId: _, purposeId: __, explanation, ...kept } = row.choice;
  return { ...kept, purpose: row.purpose, who: row.who, explanation: judgementSchema.parse(explanation) };
}

/** The masters of one purpose as they stand, by “print side”. */
export function currentMasters(
  db: Queryable,
  purposeId: number,
): Map<string, { readonly captureId: number | null; readonly decidedBy: "rule" | "person" }> {
  const rows = db
    .select({ printId: choices.printId, side: choices.side, captureId: choices.captureId, decidedBy: choices.decidedBy })
    .from(choices)
    .where(and(eq(choices.purposeId, purposeId), isNull(choices.supersededAt)))
    .all();
  return new Map(rows.map(({ printId, side, ...held }) => [`${printId} ${side}`, held]));
}

export type PurposeCounts = { readonly masters: number; readonly none: number; readonly byHand: number; readonly tooClose: number };

/** How the choices of each purpose stand, by its id: prints in the bin are left out. */
export function countChoices(db: Queryable): Map<number, PurposeCounts> {
  const rows = db
    .select({
      purposeId: choices.purposeId,
      masters: sql<number>`count(${choices.captureId})`,
      none: sql<number>`sum(${choices.captureId} is null)`,
      byHand: sql<number>`sum(${choices.decidedBy} = 'person')`,
      tooClose: sql<number>`sum(${IS_TOO_CLOSE})`,
    })
    .from(choices)
    .innerJoin(schema.prints, and(eq(schema.prints.id, choices.printId), isNull(schema.prints.binnedAt)))
    .where(isNull(choices.supersededAt))
    .groupBy(choices.purposeId)
    .all();
  return new Map(rows.map(({ purposeId, ...counts }) => [purposeId, counts]));
}

/** The rule's own choice, and too close to call. */
const IS_TOO_CLOSE = sql`(${choices.decidedBy} = 'rule' and json_extract(${choices.explanation}, '$.closeCall') = 1)`;

/** A choice that held once, as lists tell of it. */
export type EarlierChoice = {
  readonly id: number;
  readonly side: Side;
  readonly purposeId: number;
  readonly captureId: number | null;
  readonly decidedBy: "rule" | "person";
  readonly who: string | null;
  readonly sentence: string;
  readonly aimVersion: number;
  readonly createdAt: string;
};

/** What was chosen for a print before what holds now, newest first. */
export function earlierChoices(db: Queryable, printId: number, most = 120): EarlierChoice[] {
  return db
    .select({
      id: choices.id,
      side: choices.side,
      purposeId: choices.purposeId,
      captureId: choices.captureId,
      decidedBy: choices.decidedBy,
      who: users.name,
      sentence: choices.sentence,
      aimVersion: schema.aims.version,
      createdAt: choices.createdAt,
    })
    .from(choices)
    .innerJoin(schema.aims, eq(schema.aims.id, choices.aimId))
    .leftJoin(users, eq(users.id, choices.userId))
    .where(and(eq(choices.printId, printId), sql`${choices.supersededAt} is not null`))
    .orderBy(desc(choices.id))
    .limit(most)
    .all();
}

/** A choice of the rule that is too close to call. */
export type CloseChoice = {
  readonly id: number;
  readonly print: { readonly id: number; readonly objectNumber: string; readonly title: string };
  readonly side: Side;
  readonly purpose: Choice["purpose"];
  readonly sentence: string;
  readonly sureness: number | null;
  /** false: it is in doubt whether any capture is good enough */
  readonly hasMaster: boolean;
  /** there are two captures that can be held against each other */
  readonly hasTwo: boolean;
  /** a person found the runner-up better, by eye and blind */
  readonly eyeDiffers: boolean;
};

/** Choices of the rule that a person should look at, in the order of the prints' numbers; the least sure of a print first. */
export function listCloseChoices(db: Queryable, most: number): CloseChoice[] {
  return closeChoices(db)
    .orderBy(asc(schema.prints.objectNumberSort), sql`json_extract(${choices.explanation}, '$.sureness')`)
    .limit(most)
    .all()
    .map((row) => ({ ...row, hasMaster: row.hasMaster === 1, hasTwo: row.hasTwo === 1, eyeDiffers: row.eyeDiffers === 1 }));
}

export const countCloseChoices = (db: Queryable): number =>
  db
    .select({ count: count() })
    .from(choices)
    .innerJoin(schema.prints, IS_OF_KEPT_PRINT)
    .innerJoin(purposes, IS_OF_USED_PURPOSE)
    .where(waitsForALook())
    .get()?.count ?? 0;

const closeChoices = (db: Queryable) =>
  db
    .select({
      id: choices.id,
      print: { id: schema.prints.id, objectNumber: schema.prints.objectNumber, title: schema.prints.title },
      side: choices.side,
      purpose: { id: purposes.id, key: purposes.key, name: purposes.name, note: purposes.note },
      sentence: choices.sentence,
      sureness: sql<number | null>`json_extract(${choices.explanation}, '$.sureness')`,
      eyeDiffers: sql<number>`${seenBy(sql`${PICKED} = ${choices.runnerUpId}`)}`,
      hasMaster: sql<number>`${choices.captureId} is not null`,
      hasTwo: sql<number>`${choices.captureId} is not null and ${choices.runnerUpId} is not null`,
    })
    .from(choices)
    .innerJoin(schema.prints, IS_OF_KEPT_PRINT)
    .innerJoin(purposes, IS_OF_USED_PURPOSE)
    .where(waitsForALook())
    .$dynamic();

const IS_OF_KEPT_PRINT = and(eq(schema.prints.id, choices.printId), isNull(schema.prints.binnedAt));
const IS_OF_USED_PURPOSE = and(eq(purposes.id, choices.purposeId), isNull(purposes.setAsideAt));

const waitsForALook = () =>
  and(isNull(choices.supersededAt), IS_TOO_CLOSE, sql`not ${seenBy(sql`(e.answer = 'cannot-tell' or ${PICKED} = ${choices.captureId})`)}`);

/** A person judged master and runner-up by eye, blind, and found so. */
const seenBy = (found: SQL) => sql`exists (select 1 from eye_checks e
  where e.print_id = ${choices.printId} and e.side = ${choices.side} and e.purpose_id = ${choices.purposeId}
    and ${choices.captureId} in (e.left_id, e.right_id) and ${choices.runnerUpId} in (e.left_id, e.right_id) and ${found})`;

const PICKED = sql`case e.answer when 'left' then e.left_id when 'right' then e.right_id end`;
