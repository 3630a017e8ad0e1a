import type { Side } from "#domain/capture/capture.ts";
import { sameness, verdictOn } from "#domain/measure/likeness.ts";
import { likeliestViews } from "#domain/measure/likeness-views.ts";
import { findFingerprints, listKnownCaptures } from "#drizzle/queries/fingerprints.ts";
import type { Context } from "../context.ts";
import { readPlane } from "../work/grid-file.ts";

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
  const recognised: RecognisedPrint[] = [];
  for (const { index, quarters, view, other } of shortlist) {
    const candidate = known[index];
    if (!candidate) continue;
    const plane = await readPlane(context.folder, captureId, view);
    const otherPlane = await readPlane(context.folder, candidate.captureId, other);
    const found = plane && otherPlane && sameness(plane, otherPlane, quarters);
    const verdict = found ? verdictOn(found) : "other";
    if (!found || verdict === "other") continue;
    const { printId, side, captureId: knownCapture } = candidate;
    recognised.push({ printId, side, captureId: knownCapture, verdict, detail: found.detail });
  }
  const best = recognised.sort((a, b) => b.detail - a.detail);
  return best.filter((each, index) => best.findIndex(({ printId, side }) => printId === each.printId && side === each.side) === index);
}
