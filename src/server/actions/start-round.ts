import type { Round, SampleInput } from "#domain/condition/round.ts";
import { drawSample, sampleSize } from "#domain/condition/sampling.ts";
import { done, type Outcome, refused } from "#domain/outcome.ts";
import { ALL_PRINTS } from "#domain/print/print-filter.ts";
import { pathInWords } from "#domain/storage/place-tree.ts";
import type { Queryable } from "#drizzle/client.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { findPlace, placePath } from "#drizzle/queries/places.ts";
import { listPrints } from "#drizzle/queries/prints.ts";
import { insertRound, listRounds, type RoundListed } from "#drizzle/queries/rounds.ts";
import type { Context } from "../context.ts";

/** Begins to go through every print of a place and the places inside it; where that was begun and not ended, it is taken up again. */
export function startRound(context: Context, { placeId }: { placeId: number }): Outcome<{ roundId: number }> {
  return context.db.transaction((tx) => {
    const open = listRounds(tx).find((round) => round.placeId === placeId && round.sample === null && !isThrough(round));
    if (open) return done({ roundId: open.id });
    if (!findPlace(tx, placeId)) return refused(NO_PLACE);
    const name = pathInWords(placePath(tx, placeId));
    return begin(context, tx, { name, placeId, sample: null }, printsIn(tx, placeId));
  });
}

/** Draws a sample of the collection, or of a place, to be looked at. */
export function startSample(context: Context, input: SampleInput): Outcome<{ roundId: number }> {
  const { name, placeId, marginPercent, confidencePercent, expectedPercent } = input;
  return context.db.transaction((tx) => {
    if (placeId !== null && !findPlace(tx, placeId)) return refused(NO_PLACE);
    const prints = printsIn(tx, placeId);
    const seed = input.seed ?? Math.floor(Math.random() * 1_000_000_000);
    const aim = { population: prints.length, marginPercent, confidencePercent, expectedPercent };
    const drawn = new Set(prints.length === 0 ? [] : drawSample(prints, sampleSize(aim), seed));
    const of = placeId === null ? "the collection" : pathInWords(placePath(tx, placeId));
    const sample = { seed, ...aim };
    // walked in the order of the shelves, not in the order drawn
    const inOrder = prints.filter((id) => drawn.has(id));
    return begin(context, tx, { name: name ?? `Sample of ${of}`, placeId, sample }, inOrder);
  });
}

export const isThrough = ({ all, looked }: Pick<RoundListed, "all" | "looked">): boolean => looked >= all;

function begin(context: Context, tx: Queryable, round: Omit<Round, "id" | "startedAt">, printIds: number[]): Outcome<{ roundId: number }> {
  if (printIds.length === 0)
    return refused({ about: "placeId", happened: "There is no print there to look at.", remedy: "Choose another place." });
  const at = context.now();
  const roundId = insertRound(tx, { ...round, startedAt: at, userId: context.userId, printIds });
  const detail = { name: round.name, prints: printIds.length, sample: round.sample };
  recordEvent(tx, { at, userId: context.userId, verb: "started", subject: "round", subjectId: roundId, detail });
  return done({ roundId });
}

/** By object number, so that the same seed draws the same prints. */
const printsIn = (db: Queryable, placeId: number | null): number[] =>
  listPrints(db, { ...ALL_PRINTS, placeId, sort: "number", direction: "up", perPage: null }).rows.map(({ id }) => id);

const NO_PLACE = { about: "placeId", happened: "This place does not exist.", remedy: "Choose one from the list." } as const;
