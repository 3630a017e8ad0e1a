import type { Side } from "#domain/capture/capture.ts";
import { likeliest, SHORTLIST, sameness, verdictOn } from "#domain/measure/likeness.ts";
import { gridPlaneOf } from "#domain/measure/print-grid.ts";
import { findFingerprint, listKnownCaptures } from "#drizzle/queries/fingerprints.ts";
import type { Context } from "../context.ts";
import { readGrid } from "../work/grid-file.ts";

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
 * @returns null when the capture cannot be recognised: it is not measured yet, or no print was found in it
 */
export async function recognisePrint(context: Context, captureId: number): Promise<RecognisedPrint[] | null> {
  const fingerprint = findFingerprint(context.db, captureId);
  const grid = fingerprint && (await readGrid(context.folder, captureId));
  if (!fingerprint || !grid) return null;
  const known = listKnownCaptures(context.db).filter((each) => each.captureId !== captureId);
  const shortlist = likeliest(
    fingerprint,
    known.map((each) => each.fingerprint),
    SHORTLIST,
  );
  const recognised: RecognisedPrint[] = [];
  for (const { index, quarters } of shortlist) {
    const candidate = known[index];
    const other = candidate && (await readGrid(context.folder, candidate.captureId));
    const found = other && sameness(gridPlaneOf(grid), gridPlaneOf(other), quarters);
    const verdict = found ? verdictOn(found) : "other";
    if (!candidate || !found || verdict === "other") continue;
    const { printId, side, captureId: knownCapture } = candidate;
    recognised.push({ printId, side, captureId: knownCapture, verdict, detail: found.detail });
  }
  const best = recognised.sort((a, b) => b.detail - a.detail);
  return best.filter((each, index) => best.findIndex(({ printId, side }) => printId === each.printId && side === each.side) === index);
}
