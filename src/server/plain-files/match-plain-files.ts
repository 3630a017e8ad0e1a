import { type Fingerprint, fingerprintOf } from "#domain/measure/fingerprint.ts";
import type { GridPlane } from "#domain/measure/grid-plane.ts";
import { likeliest, SHORTLIST, sameness, verdictOn } from "#domain/measure/likeness.ts";
import type { MatchReport } from "#domain/measure/match-report.ts";
import { largestOutline } from "#domain/measure/measure-capture.ts";
import { findOutlines } from "#domain/measure/outline.ts";
import { luminanceAt, type Picture } from "#domain/measure/picture.ts";
import { gridPlaneOf, makeGrid } from "#domain/measure/print-grid.ts";
import { done, type Outcome } from "#domain/outcome.ts";
import { readPlainFile, type SaidOfPrint } from "./read-plain-file.ts";

/** A file as it is recognised: its picture straightened and small. */
export type Recognisable = { readonly file: string; readonly sha256: string; readonly plane: GridPlane; readonly fingerprint: Fingerprint };

const LONG_SIDE_PX = 320;

/** Straightens the picture in a file; the whole frame where no print is found in it. */
export async function recognisable(file: string, said: SaidOfPrint): Promise<Outcome<Recognisable>> {
  const read = await readPlainFile(file, said);
  if (!read.ok) return read;
  const { picture, context, sha256 } = read.value;
  const outline = largestOutline(findOutlines(picture, context));
  const grid = outline && makeGrid(picture, outline, context);
  const plane = grid ? gridPlaneOf(grid) : wholeFrame(picture);
  return done({ file, sha256, plane, fingerprint: fingerprintOf(plane) });
}

/** Which of the files show the same print; from most to least alike. */
export function matchAmong(asked: Recognisable, among: readonly Recognisable[]): MatchReport {
  const others = among.filter(({ sha256 }) => sha256 !== asked.sha256);
  const shortlist = likeliest(
    asked.fingerprint,
    others.map(({ fingerprint }) => fingerprint),
    SHORTLIST,
  );
  const matches = shortlist.flatMap(({ index, quarters, likeness }): MatchReport["matches"] => {
    const other = others[index] as Recognisable;
    const found = sameness(asked.plane, other.plane, quarters);
    const verdict = found ? verdictOn(found) : "other";
    return found && verdict !== "other" ? [{ file: other.file, verdict, likeness, detail: found.detail, quarterTurns: quarters }] : [];
  });
  return {
    file: asked.file,
    sha256: asked.sha256,
    sameBytes: among.filter(({ sha256, file }) => sha256 === asked.sha256 && file !== asked.file).map(({ file }) => file),
    matches: matches.sort((a, b) => b.detail - a.detail),
  };
}

function wholeFrame(picture: Picture): GridPlane {
  const scale = Math.min(1, LONG_SIDE_PX / Math.max(picture.widthPx, picture.heightPx));
  const width = Math.max(1, Math.round(picture.widthPx * scale));
  const height = Math.max(1, Math.round(picture.heightPx * scale));
  const data = new Float32Array(width * height);
  for (let y = 0; y < height; y++) {
    const row = Math.min(picture.heightPx - 1, Math.floor((y + 0.5) / scale));
    for (let x = 0; x < width; x++)
      data[y * width + x] = luminanceAt(picture, Math.min(picture.widthPx - 1, Math.floor((x + 0.5) / scale)), row);
  }
  return { width, height, data };
}
