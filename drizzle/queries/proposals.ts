import { and, asc, count, eq, isNull, sql } from "drizzle-orm";
import type { Purpose } from "#domain/aim/aim.ts";
import type { Side } from "#domain/capture/capture.ts";
import type { Proposal } from "#domain/master/proposal.ts";
import { type Queryable, schema } from "../client.ts";
import { captureName } from "./capture-name.ts";

const { captures, choices, originals, prints, proposals, purposes } = schema;

/** A proposal that waits for an answer, with the print it is about. */
export type OpenProposal = Proposal & {
  readonly print: { readonly id: number; readonly objectNumber: string; readonly title: string };
  readonly side: Side;
  readonly purpose: Purpose;
  /** file name of the capture proposed */
  readonly proposedName: string;
  /** the capture that a person chose */
  readonly heldId: number | null;
};

export function insertProposal(
  db: Queryable,
  made: { choiceId: number; captureId: number; aimId: number; sentence: string },
  now: string,
): number {
  return db
    .insert(proposals)
    .values({ ...made, createdAt: now })
    .returning({ id: proposals.id })
    .get().id;
}

export function findOpenProposal(db: Queryable, choiceId: number): Proposal | null {
  return (
    db
      .select(PROPOSAL)
      .from(proposals)
      .where(and(eq(proposals.choiceId, choiceId), isNull(proposals.answer)))
      .get() ?? null
  );
}

/** Captures that were proposed in the place of a choice and declined. */
export function declinedFor(db: Queryable, choiceId: number): number[] {
  return db
    .select({ captureId: proposals.captureId })
    .from(proposals)
    .where(and(eq(proposals.choiceId, choiceId), eq(proposals.answer, "declined")))
    .all()
    .map(({ captureId }) => captureId);
}

/** Ends what waits for an answer about a choice; nothing happens where nothing waits. */
export function endProposal(
  db: Queryable,
  choiceId: number,
  answer: "accepted" | "declined" | "lapsed",
  by: { now: string; userId: number | null },
): void {
  db.update(proposals)
    .set({ answer, answeredAt: by.now, userId: by.userId })
    .where(and(eq(proposals.choiceId, choiceId), isNull(proposals.answer)))
    .run();
}

/** Everything that waits, in the order of the prints' numbers; of one print, or of all in use. */
export function listOpenProposals(db: Queryable, of: { printId?: number; most?: number } = {}): OpenProposal[] {
  return db
    .select({
      ...PROPOSAL,
      print: { id: prints.id, objectNumber: prints.objectNumber, title: prints.title },
      side: choices.side,
      purpose: { id: purposes.id, key: purposes.key, name: purposes.name, note: purposes.note },
      proposedName: captureName,
      heldId: choices.captureId,
    })
    .from(proposals)
    .innerJoin(choices, and(eq(choices.id, proposals.choiceId), isNull(choices.supersededAt)))
    .innerJoin(prints, and(eq(prints.id, choices.printId), isNull(prints.binnedAt)))
    .innerJoin(purposes, and(eq(purposes.id, choices.purposeId), isNull(purposes.setAsideAt)))
    .innerJoin(captures, eq(captures.id, proposals.captureId))
    .innerJoin(originals, eq(originals.id, captures.originalId))
    .where(and(isNull(proposals.answer), of.printId === undefined ? sql`1` : eq(prints.id, of.printId)))
    .orderBy(asc(prints.objectNumberSort), asc(purposes.position))
    .limit(of.most ?? 200)
    .all();
}

export function countOpenProposals(db: Queryable): number {
  return (
    db
      .select({ n: count() })
      .from(proposals)
      .innerJoin(choices, and(eq(choices.id, proposals.choiceId), isNull(choices.supersededAt)))
      .innerJoin(prints, and(eq(prints.id, choices.printId), isNull(prints.binnedAt)))
      .innerJoin(purposes, and(eq(purposes.id, choices.purposeId), isNull(purposes.setAsideAt)))
      .where(isNull(proposals.answer))
      .get()?.n ?? 0
  );
}

const PROPOSAL = {
  id: proposals.id,
  choiceId: proposals.choiceId,
  captureId: proposals.captureId,
  sentence: proposals.sentence,
  createdAt: proposals.createdAt,
};
