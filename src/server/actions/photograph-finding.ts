import { rm } from "node:fs/promises";
import type { Readable } from "node:stream";
import { MOST_PHOTOGRAPH_BYTES, MOST_PHOTOGRAPHS } from "#domain/condition/finding-photograph.ts";
import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import type { Queryable } from "#drizzle/client.ts";
import { findOriginalBySha256, insertOriginal } from "#drizzle/queries/captures.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { countPhotographs, deletePhotograph, findFinding, findPhotograph, insertPhotograph } from "#drizzle/queries/finding-photographs.ts";
import { findPrint } from "#drizzle/queries/prints.ts";
import type { Context } from "../context.ts";
import { readToItsEnd } from "../images/decode.ts";
import { copyIn, keep, keptBytes, plainName } from "../intake/copy-in.ts";
import { inspect } from "../intake/inspect.ts";

export type PhotographFinding = { findingId: number; caption: string | null; source: Readable; originalName: string };

/**
 * Keeps a photograph of a finding: an original like every other, hashed and never changed, that belongs to a finding and not to a side
 * of the print. The same file may show several findings; it is stored once.
 */
export async function photographFinding(
  context: Context,
  { findingId, caption, source, originalName }: PhotographFinding,
): Promise<Outcome<{ photographId: number }>> {
  const name = plainName(originalName);
  const mistaken = whyNoPhotograph(context.db, findingId, name);
  if (mistaken) {
    source.on("error", () => {}).destroy();
    return refused(mistaken);
  }
  const copied = await copyIn(context.folder, source, name, MOST_PHOTOGRAPH_BYTES);
  if (!copied.ok) return copied;
  const { path, sha256, bytes } = copied.value;
  try {
    const inspected = await inspect(path, name, readToItsEnd);
    if (!inspected.ok) return inspected;
    if ((await keptBytes(context.folder, sha256)) !== bytes) {
      const kept = await keep(context.folder, copied.value, name);
      if (!kept.ok) return kept;
    }
    return context.db.transaction((tx) => {
      const tooLate = whyNoPhotograph(tx, findingId, name);
      if (tooLate) return refused(tooLate);
      const original =
        findOriginalBySha256(tx, sha256) ?? insertOriginal(tx, { ...inspected.value.facts, originalName: name, sha256, bytes });
      const { userId } = context;
      const photographId = insertPhotograph(tx, { findingId, originalId: original.id, caption, userId, createdAt: context.now() });
      if (photographId === null) return refused(HERE_ALREADY(name));
      tell(tx, context, "photographed", findingId, { originalName: name, sha256, caption });
      return done({ photographId });
    });
  } finally {
    await rm(path, { force: true });
  }
}

/** Takes a photograph from its finding again. Its file is kept, as every original is. */
export function takeOutPhotograph(context: Context, photographId: number): Outcome<{ findingId: number }> {
  return context.db.transaction((tx) => {
    const photograph = findPhotograph(tx, photographId);
    if (!photograph) return refused({ about: null, happened: "This photograph is not there any more.", remedy: "Nothing has to be done." });
    const { findingId, original, caption } = photograph;
    deletePhotograph(tx, photographId);
    tell(tx, context, "photograph taken out", findingId, { originalName: original.originalName, sha256: original.sha256, caption });
    return done({ findingId });
  });
}

function tell(tx: Queryable, { now, userId }: Context, verb: string, findingId: number, detail: Record<string, unknown>): void {
  const finding = findFinding(tx, findingId);
  if (!finding) return;
  const { surveyId, printId, term, side } = finding;
  recordEvent(tx, { at: now(), userId, verb, subject: "survey", subjectId: surveyId, printId, detail: { ...detail, term, side } });
}

function whyNoPhotograph(db: Queryable, findingId: number, about: string): Refusal | null {
  const finding = findFinding(db, findingId);
  if (!finding || findPrint(db, finding.printId)?.binnedAt !== null)
    return {
      about,
      happened: "The finding it was said to show is not there any more.",
      remedy: "Go back to the print and choose another.",
    };
  if (countPhotographs(db, findingId) >= MOST_PHOTOGRAPHS)
    return {
      about,
      happened: `This finding has ${MOST_PHOTOGRAPHS} photographs already.`,
      remedy: "Take one out first, or keep this one for the next look.",
    };
  return null;
}

const HERE_ALREADY = (about: string): Refusal => ({
  about,
  happened: "This finding has the same photograph already.",
  remedy: "Nothing has to be done: it is not stored twice.",
});
