import { gridPlaneOf, type PrintGrid } from "../laying/print-grid.ts";
import { luminanceAt, type Picture } from "../picture.ts";
import type { GridPlane } from "../planes/grid-plane.ts";
import type { Outline } from "../reading.ts";
import type { Fingerprint } from "./fingerprint.ts";
import { type Likely, likeliest, SHORTLIST } from "./likeness.ts";

export const VIEWS = ["print", "frame"] as const;
export type View = (typeof VIEWS)[number];

/**
 * What a capture is known again by: the print that was found in it, straightened, and its whole frame where that need not
 * be the print: a file cropped to the picture has no sheet to find, and something in the picture may be taken for one.
 */
export type Views<T> = { readonly [view in View]: T | null };

/** Longer side of a frame that is kept, px. */
const FRAME_PX = 320;

export function viewsOf(picture: Picture, outline: Outline | null, grid: PrintGrid | null): Views<GridPlane> {
  const isSure = outline !== null && outline.doubt !== "in picture" && Object.values(outline.sides).every((side) => side === "seen");
  return { print: grid && gridPlaneOf(grid), frame: grid && isSure ? null : wholeFrame(picture) };
}

export const eachView = <T, U>(views: Views<T>, of: (kept: T) => U | null): Views<U> => ({
  print: views.print === null ? null : of(views.print),
  frame: views.frame === null ? null : of(views.frame),
});

/** A capture that may show the same, and by which view of either. */
export type LikelyView = Likely & { readonly view: View; readonly other: View };

/**
 * The likeliest captures by each view of the one asked for and of the others, as many together as one shortlist holds. Two whole
 * frames are held against each other only where no print was found in one of them: what two prints lie on may be the same table.
 * @param isOf which print a capture shows, where that is known; see `likeliest`
 */
export function likeliestViews(
  asked: Views<Fingerprint>,
  among: readonly Views<Fingerprint>[],
  isOf?: (index: number) => string | number | null,
): LikelyView[] {
  const ways = VIEWS.flatMap((view) => VIEWS.map((other) => ({ view, other, print: asked[view] }))).flatMap(({ view, other, print }) => {
    const comparable = among.flatMap((views, index) => {
      const isOfTables = view === "frame" && other === "frame" && asked.print !== null && views.print !== null;
      return views[other] && !isOfTables ? [{ index, print: views[other] }] : [];
    });
    return print && comparable.length > 0 ? [{ view, other, print, comparable }] : [];
  });
  return ways.flatMap(({ view, other, print, comparable }) => {
    const indexOf = (at: number) => comparable[at]?.index ?? -1;
    const found = likeliest(
      print,
      comparable.map((each) => each.print),
      Math.floor(SHORTLIST / ways.length),
      isOf && ((at) => isOf(indexOf(at))),
    );
    return found.map((likely) => ({ ...likely, index: indexOf(likely.index), view, other }));
  });
}

function wholeFrame(picture: Picture): GridPlane {
  const scale = Math.min(1, FRAME_PX / Math.max(picture.widthPx, picture.heightPx));
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
