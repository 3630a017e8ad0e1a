import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import type { Change } from "#domain/condition/change/change-between.ts";
import { qualificationOf } from "#domain/condition/change/qualification.ts";
import { standingOutline } from "#domain/measure/kept-outlines.ts";
import type { CaptureWithOriginal } from "#drizzle/queries/captures.ts";
import { findMeasureSet } from "#drizzle/queries/measures.ts";
import { changePath, originalPath } from "../collection-folder.ts";
import type { Context } from "../context.ts";
import { replaceFile } from "../images/derive.ts";
import { hasPassedTargetCheck } from "../target/check-of-capture.ts";
import type { CaptureToHold, Job } from "../work/job.ts";
import { knownContext } from "../work/measure-context.ts";
import { Thread } from "../work/thread.ts";

/** Raised when the way of telling change is altered, so that what was kept is made anew. */
const VERSION = 5;

export type HeldAgainst = Change | { readonly refused: string };
type Pair = { readonly older: CaptureWithOriginal; readonly newer: CaptureWithOriginal };

/** What is kept of two captures held against each other; null where they have not been, or something has changed since. */
export async function keptChange(context: Context, pair: Pair): Promise<HeldAgainst | null> {
  const text = await readFile(changePath(context.folder, idsOf(pair), "change.json"), "utf8").catch(() => null);
  const kept = text === null ? null : (JSON.parse(text) as { basis: string; change: HeldAgainst });
  return kept?.basis === basisOf(jobOf(context, pair)) ? kept.change : null;
}

/** Holds two captures of one side of a print against each other in a thread of its own, one pair at a time, and keeps the answer. */
export async function holdAgainst(context: Context, pair: Pair): Promise<HeldAgainst> {
  const kept = await keptChange(context, pair);
  if (kept) return kept;
  const job = jobOf(context, pair);
  const basis = basisOf(job);
  const making = underWay.get(basis) ?? turn.then(() => make(context, pair, job, basis)).finally(() => underWay.delete(basis));
  underWay.set(basis, making);
  turn = making.catch(() => {});
  return making;
}

/** Comparing many at once would fill the memory. */
let turn: Promise<unknown> = Promise.resolve();
const underWay = new Map<string, Promise<HeldAgainst>>();

async function make(context: Context, pair: Pair, job: Job, basis: string): Promise<HeldAgainst> {
  const thread = new Thread();
  const answer = await thread.run(job).finally(() => thread.close());
  if ("change" in answer) {
    await replaceFile(changePath(context.folder, idsOf(pair), "change.json"), JSON.stringify({ basis, change: answer.change }));
    return answer.change;
  }
  // not kept, so that asking again tries again
  if ("unreadable" in answer) return { refused: answer.unreadable };
  console.error(answer);
  return { refused: "the program met a fault of its own while it compared them; ask again, and report it if it stays" };
}

const idsOf = ({ older, newer }: Pair) => ({ olderId: older.id, newerId: newer.id });

function jobOf(context: Context, { older, newer }: Pair): Job & { kind: "change" } {
  return { kind: "change", folder: context.folder, older: toHold(context, older), newer: toHold(context, newer) };
}

function toHold(context: Context, capture: CaptureWithOriginal): CaptureToHold {
  const { sheetWidthMm, sheetHeightMm, imageWidthMm, imageHeightMm } = knownContext(context.db, capture);
  return {
    id: capture.id,
    original: { path: originalPath(context.folder, capture.original.sha256), kind: capture.original.kind },
    region: capture.region,
    outline: standingOutline(capture.saidOutline, findMeasureSet(context.db, capture.id, "alone")),
    sizes: { sheetWidthMm, sheetHeightMm, imageWidthMm, imageHeightMm },
    qualification: qualificationOf(capture.method, hasPassedTargetCheck(context, capture)),
  };
}

/** Everything the answer rests on but where the collection's folder lies. */
function basisOf({ older, newer }: Job & { kind: "change" }): string {
  const facts = [older, newer].map(({ original, ...rest }) => ({ ...rest, sha256: original.path.slice(-64) }));
  return createHash("sha256")
    .update(JSON.stringify([VERSION, facts]))
    .digest("hex");
}
