import type { Side } from "#domain/capture/capture.ts";
import { type Sameness, verdictOn } from "#domain/measure/likeness.ts";
import { likeliestViews } from "#domain/measure/likeness-views.ts";
import { findFingerprints, listKnownCaptures } from "#drizzle/queries/fingerprints.ts";
import type { Context } from "../context.ts";
import type { Job } from "../work/job.ts";
import { runAlone, Thread } from "../work/thread.ts";

/** A print that a capture may show, with the capture of it that looks most alike. */
export type RecognisedPrint = {
  readonly printId: number;
  readonly side: Side;
  readonly captureId: number;
  readonly verdict: "same" | "perhaps";
  readonly detail: number;
};

/**
 * Which prints of the collection a capture may show, likeliest first. Nothing is assigned: a person decides.
 * @returns null when the capture cannot be recognised: it is not measured yet
 */
export async function recognisePrint(context: Context, captureId: number): Promise<RecognisedPrint[] | null> {
  const asked = findFingerprints(context.db, captureId);
  if (!asked) return null;
  const known = listKnownCaptures(context.db).filter((each) => each.captureId !== captureId);
  const shortlist = likeliestViews(
    asked,
    known.map(({ views }) => views),
  );
  const candidates = shortlist.flatMap(({ index, ...likely }) => {
    const candidate = known[index];
    return candidate ? [{ ...candidate, ...likely }] : [];
  });
  const looked = await lookClosely(context, captureId, candidates);
  const recognised = candidates.flatMap(({ printId, side, captureId: knownCapture }, index): RecognisedPrint[] => {
    const found = looked[index];
    const verdict = found ? verdictOn(found) : "other";
    return found && verdict !== "other" ? [{ printId, side, captureId: knownCapture, verdict, detail: found.detail }] : [];
  });
  const best = recognised.sort((a, b) => b.detail - a.detail);
  return best.filter((each, index) => best.findIndex(({ printId, side }) => printId === each.printId && side === each.side) === index);
}

/**
 * In a thread of its own, so that other pages are answered meanwhile.
 * @throws where the thread fails: a defect, or the machine is short of memory
 */
async function lookClosely(context: Context, captureId: number, candidates: LookJob["others"]): Promise<readonly (Sameness | null)[]> {
  if (candidates.length === 0) return [];
  const others = candidates.map(({ captureId: id, quarters, view, other }) => ({ captureId: id, quarters, view, other }));
  const answer = await runAlone(new Thread(), { kind: "look", folder: context.folder, captureId, others }, context.ending);
  if ("looked" in answer) return answer.looked;
  throw new Error("fault" in answer ? answer.fault : "the thread answered something else");
}

type LookJob = Extract<Job, { kind: "look" }>;
