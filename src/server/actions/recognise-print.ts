import type { Side } from "#domain/capture/capture.ts";
import type { Fingerprint } from "#domain/measure/likeness/fingerprint.ts";
import { type Sameness, verdictOn } from "#domain/measure/likeness/likeness.ts";
import { type LikelyView, likeliestViews, type Views } from "#domain/measure/likeness/likeness-views.ts";
import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import { findFingerprints, type KnownCapture, listKnownCaptures } from "#drizzle/queries/fingerprints.ts";
import type { Context } from "../context.ts";
import { type Fault, runAlone, Thread } from "../work/thread.ts";
import { turns } from "../work/turns.ts";

/** A print that a capture may show, with the capture of it that looks most alike; or a capture that waits in the tray and may show the same. */
export type RecognisedPrint = {
  /** null: nobody has said yet which print it shows */
  readonly printId: number | null;
  readonly side: Side;
  readonly captureId: number;
  readonly verdict: "same" | "perhaps";
  readonly detail: number;
};

/** Each look starts a thread and holds what every known capture looks like. */
const inTurn = turns();

/**
 * Which prints of the collection a capture may show, likeliest first, and after them what else waits in the tray and may show the same.
 * Nothing is assigned: a person decides. One look after another.
 * @returns null when the capture cannot be recognised: it is not measured yet, could not be measured, or was measured before this was kept
 */
export async function recognisePrint(context: Context, captureId: number): Promise<Outcome<RecognisedPrint[] | null>> {
  const asked = findFingerprints(context.db, captureId);
  if (!asked) return done(null);
  return inTurn(async () => (context.ending.aborted ? refused(CLOSING) : recogniseAmongKnown(context, captureId, asked)));
}

/** What one look of a shortlist is for: a side of a print, or a capture without one. */
const sideOf = (known: Pick<KnownCapture, "printId" | "side" | "captureId"> | undefined) =>
  known?.printId === null ? `waiting ${known.captureId}` : `${known?.printId} ${known?.side}`;

async function recogniseAmongKnown(
  context: Context,
  captureId: number,
  asked: Views<Fingerprint>,
): Promise<Outcome<RecognisedPrint[] | null>> {
  const known = listKnownCaptures(context.db).filter((each) => each.captureId !== captureId);
  const ofPrints = await recogniseAmong(
    context,
    captureId,
    asked,
    known.filter(({ printId }) => printId !== null),
  );
  if (!ofPrints.ok) return ofPrints;
  // a look of their own: a tray full of captures of one print would crowd that print itself out of the shortlist
  const waiting = await recogniseAmong(
    context,
    captureId,
    asked,
    known.filter(({ printId }) => printId === null),
  );
  return waiting.ok ? done([...ofPrints.value, ...waiting.value]) : waiting;
}

async function recogniseAmong(
  context: Context,
  captureId: number,
  asked: Views<Fingerprint>,
  known: readonly KnownCapture[],
): Promise<Outcome<RecognisedPrint[]>> {
  const shortlist = likeliestViews(
    asked,
    known.map(({ views }) => views),
    (index) => sideOf(known[index]),
  );
  const candidates = shortlist.flatMap(({ index, ...likely }) => {
    const candidate = known[index];
    return candidate ? [{ ...candidate, ...likely }] : [];
  });
  const looked = await lookClosely(context, captureId, candidates);
  if ("fault" in looked) {
    if (context.ending.aborted) return refused(CLOSING);
    console.error(looked.fault);
    return refused(FAULT);
  }
  const recognised = candidates.flatMap(({ printId, side, captureId: knownCapture }, index): RecognisedPrint[] => {
    const found = looked[index];
    const verdict = found ? verdictOn(found) : "other";
    return found && verdict !== "other" ? [{ printId, side, captureId: knownCapture, verdict, detail: found.detail }] : [];
  });
  const best = recognised.sort((a, b) => b.detail - a.detail);
  return done(best.filter((each, index) => best.findIndex((other) => sideOf(other) === sideOf(each)) === index));
}

/** In a thread of its own, so that other pages are answered meanwhile. */
async function lookClosely(
  context: Context,
  captureId: number,
  candidates: readonly (KnownCapture & Pick<LikelyView, "quarters" | "view" | "other">)[],
): Promise<readonly (Sameness | null)[] | Fault> {
  if (candidates.length === 0) return [];
  const others = candidates.map((each) => {
    return { captureId: each.captureId, quarters: each.quarters, view: each.view, other: each.other, of: sideOf(each) };
  });
  const answer = await runAlone(new Thread(), { kind: "look", folder: context.folder, captureId, others }, context.ending);
  if ("looked" in answer) return answer.looked;
  return "fault" in answer ? answer : { fault: "the thread answered something else" };
}

const CLOSING: Refusal = {
  about: null,
  happened: "The pictures were not compared: the collection is being closed.",
  remedy: "Look again once it is open.",
};
const FAULT: Refusal = {
  about: null,
  happened: "The pictures could not be compared: the program met a fault of its own, or the machine is short of memory.",
  remedy: "Look again, and report it if it stays. The capture can be given its number in the tray meanwhile.",
};
