import { makeGrid } from "#domain/measure/laying/print-grid.ts";
import { type Fingerprint, fingerprintOf } from "#domain/measure/likeness/fingerprint.ts";
import { SHORTLIST, verdictOn } from "#domain/measure/likeness/likeness.ts";
import { eachView, likeliestViews, type Views, viewsOf } from "#domain/measure/likeness/likeness-views.ts";
import { lookAmong } from "#domain/measure/likeness/look-among.ts";
import type { MatchReport } from "#domain/measure/match-report.ts";
import { largestOutline } from "#domain/measure/measure-capture.ts";
import { findOutlines } from "#domain/measure/outline/outline.ts";
import type { GridPlane } from "#domain/measure/planes/grid-plane.ts";
import { done, type Outcome } from "#domain/outcome.ts";
import { readPlainFile, type SaidOfPrint } from "./read-plain-file.ts";

/** A file as it is recognised: its print, and its frame, straightened and small. */
export type Recognisable = {
  readonly file: string;
  readonly sha256: string;
  readonly planes: Views<GridPlane>;
  readonly fingerprints: Views<Fingerprint>;
};

/** Straightens the print in a file, and keeps the whole frame where that may not be it. */
export async function recognisable(file: string, said: SaidOfPrint): Promise<Outcome<Recognisable>> {
  const read = await readPlainFile(file, said);
  if (!read.ok) return read;
  const { picture, context, sha256 } = read.value;
  const outline = largestOutline(findOutlines(picture, context));
  const planes = viewsOf(picture, outline, outline && makeGrid(picture, outline, context));
  return done({ file, sha256, planes, fingerprints: eachView(planes, fingerprintOf) });
}

/** Which of the files show the same print; from most to least alike. */
export async function matchAmong(asked: Recognisable, among: readonly Recognisable[]): Promise<MatchReport> {
  const others = among.filter(({ sha256 }) => sha256 !== asked.sha256);
  const shortlist = likeliestViews(
    asked.fingerprints,
    others.map(({ fingerprints }) => fingerprints),
  );
  const candidates = shortlist.map((likely) => ({ ...likely, recognisable: others[likely.index] as Recognisable, of: likely.index }));
  const looked = await lookAmong(
    candidates,
    async ({ recognisable: { planes }, view, other }) => {
      const [plane, otherPlane] = [asked.planes[view], planes[other]];
      return plane && otherPlane && [plane, otherPlane];
    },
    SHORTLIST,
  );
  const matches = candidates.flatMap(({ recognisable: { file }, likeness, quarters }, index): MatchReport["matches"] => {
    const found = looked[index];
    const verdict = found ? verdictOn(found) : "other";
    return found && verdict !== "other" ? [{ file, verdict, likeness, detail: found.detail, quarterTurns: quarters }] : [];
  });
  const best = matches.sort((a, b) => b.detail - a.detail);
  return {
    file: asked.file,
    sha256: asked.sha256,
    sameBytes: among.filter(({ sha256, file }) => sha256 === asked.sha256 && file !== asked.file).map(({ file }) => file),
    matches: best.filter(({ file }, index) => best.findIndex((each) => each.file === file) === index),
  };
}
