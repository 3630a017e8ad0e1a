import { type Alignment, alignPlanes } from "./align-planes.ts";
import { correlation, detailPlane } from "./detail-plane.ts";
import { type Glare, glareAmong } from "./glare-among.ts";
import { blurred, type GridPlane, resized, turnedBy } from "./grid-plane.ts";
import { boxesOf } from "./mask.ts";
import type { PrintGrid } from "./print-grid.ts";
import type { Present, Reading } from "./reading.ts";

/**
 * Glare by comparison: share of the picture, in percent, that shines in one capture and not in the others of the same
 * print. All captures are laid on one (in any of four turns), their tones are mapped onto each other, and what is left
 * brighter is glare (see glare-among.ts).
 *
 * With two captures a brighter place may be glare in one or shadow in the other: the reading is fair. With three or more
 * it is firm. Either way "at least": shine that all captures share is not seen, and of shine broader than a third of the
 * picture only the brightest part is. Absent where a capture cannot be lined up with the others.
 *
 * Needs: two captures of one print with some detail in the picture. Costs about the square of the number of captures.
 * Source: common practice, no source.
 */
export function compareCaptures(
  grids: readonly { readonly captureId: number; readonly grid: PrintGrid }[],
): { captureId: number; readings: Reading[] }[] {
  if (grids.length < 2) return grids.map(({ captureId }) => absent(captureId, "there is no other capture of this print to compare with"));
  const planes = grids.map(({ captureId, grid }): Comparable => ({ captureId, grid, coarse: coarsePlane(grid) }));
  const reference = referenceOf(planes);
  if (!reference) return grids.map(({ captureId }) => absent(captureId, "the pictures are too small to be compared"));
  const laid = planes.map((plane) => lay(plane, reference));
  const together = laid.filter((each) => "luminance" in each);
  if (together.length < 2) return laid.map((each) => absent(each.captureId, "refused" in each ? each.refused : NONE_LINED_UP));
  const glares = glareAmong(
    together.map((each) => each.luminance),
    marginPx(reference.grid, workingPlane(reference.grid)),
  );
  return laid.map((each) => {
    if ("refused" in each) return absent(each.captureId, each.refused);
    const glare = glares?.[together.indexOf(each)];
    const others = glares?.filter((other) => other !== glare) ?? [];
    return glare ? compared(each, glare, others) : absent(each.captureId, "too little of the picture is seen in all captures");
  });
}

/** About 100 pixels per inch: glare is broad. */
const PX_PER_MM = 4;
/** Where no size is known; and the most pixels along the longer side in any case. */
const LONG_SIDE_PX = 320;
const MOST_LONG_SIDE_PX = 640;
const SMALLEST_SIDE_PX = 32;
const COARSE_LONG_SIDE_PX = 64;
/** Proportions that differ by more are not of one picture. */
const MOST_ASPECT_DIFFERENCE = 0.1;
const LEAST_CORRELATION = 0.35;
const MOST_RESIDUAL_PX = 0.3;
const SMOOTHING_PX = 2;
const MARGIN_MM = 2;
const MARGIN_SHARE = 0.025;
const MOST_PLACES = 12;
/** Glare of this share in one of two captures makes tones of the other doubtful. */
const BROAD_PERCENT = 10;
const NONE_LINED_UP = "no other capture of this print could be lined up with this one";

type Comparable = { readonly captureId: number; readonly grid: PrintGrid; readonly coarse: GridPlane | null };
type Laid = { readonly captureId: number; readonly grid: PrintGrid; readonly quarters: number; readonly luminance: GridPlane };
type Refused = { readonly captureId: number; readonly refused: string };

const absent = (captureId: number, reason: string) => ({ captureId, readings: [{ name: "glareAreaPercent", absent: reason } as const] });

const planeOf = ({ widthPx, heightPx, data }: PrintGrid): GridPlane => ({ width: widthPx, height: heightPx, data });

function scaledPlane(grid: PrintGrid, longSidePx: number): GridPlane {
  const factor = longSidePx / Math.max(grid.widthPx, grid.heightPx);
  return resized(planeOf(grid), Math.max(2, Math.round(grid.widthPx * factor)), Math.max(2, Math.round(grid.heightPx * factor)));
}

function coarsePlane(grid: PrintGrid): GridPlane | null {
  return Math.min(grid.widthPx, grid.heightPx) < SMALLEST_SIDE_PX ? null : scaledPlane(grid, COARSE_LONG_SIDE_PX);
}

/** The capture that looks most like all the others. */
function referenceOf(planes: readonly Comparable[]): Comparable | null {
  const usable = planes.filter((plane) => plane.coarse !== null);
  const likeness = (plane: Comparable) =>
    usable.reduce((sum, other) => sum + (other === plane ? 0 : Math.max(0, bestTurn(plane, other).likeness)), 0);
  return (
    usable
      .map((plane) => ({ plane, sum: likeness(plane) }))
      .reduce<{ plane: Comparable; sum: number } | null>((best, each) => (!best || each.sum > best.sum ? each : best), null)?.plane ?? null
  );
}

/** The quarter turns, clockwise, that bring `other` nearest to `reference`. */
function bestTurn(reference: Comparable, other: Comparable): { quarters: number; likeness: number } {
  let best = { quarters: 0, likeness: Number.NEGATIVE_INFINITY };
  const fixed = reference.coarse && detailPlane(reference.coarse);
  for (let quarters = 0; quarters < 4; quarters++) {
    const turned = other.coarse && turnedBy(other.coarse, quarters);
    if (!fixed || !turned || Math.abs(Math.log((turned.width * fixed.height) / (turned.height * fixed.width))) > MOST_ASPECT_DIFFERENCE)
      continue;
    const likeness = correlation(fixed.data, detailPlane(resized(turned, fixed.width, fixed.height)).data);
    if (likeness > best.likeness) best = { quarters, likeness };
  }
  return best;
}

/** Lays a capture on the reference, on the reference's working grid. */
function lay(plane: Comparable, reference: Comparable): Laid | Refused {
  const { captureId, grid } = plane;
  const target = workingPlane(reference.grid);
  if (plane === reference) return { captureId, grid, quarters: 0, luminance: blurred(target, SMOOTHING_PX) };
  if (!plane.coarse) return { captureId, refused: "the picture is too small to be compared" };
  const { quarters, likeness } = bestTurn(reference, plane);
  if (!Number.isFinite(likeness))
    return {
      captureId,
      refused: "its picture has other proportions than that of the other captures; these captures may not show the same print",
    };
  const luminance = resized(turnedBy(planeOf(grid), quarters), target.width, target.height);
  const alignment = alignPlanes(target, luminance);
  const refused = whyNot(alignment);
  if (!alignment || refused) return { captureId, refused: refused ?? NONE_LINED_UP };
  return { captureId, grid, quarters, luminance: blurred(alignment.warped(luminance), SMOOTHING_PX) };
}

/** Why an alignment cannot be relied on, in words for the keeper. */
function whyNot(alignment: Alignment | null): string | null {
  if (!alignment) return "the picture has too little detail to line its captures up";
  if (alignment.correlation < LEAST_CORRELATION)
    return "it could not be lined up with the other captures; these captures may not show the same print";
  if (alignment.residualPx > MOST_RESIDUAL_PX)
    return "it could not be lined up exactly enough with the other captures, as when a print curls or one capture is blurred";
  return null;
}

function workingPlane(grid: PrintGrid): GridPlane {
  const wanted = grid.pxPerMm === null ? LONG_SIDE_PX : (PX_PER_MM * Math.max(grid.widthPx, grid.heightPx)) / grid.pxPerMm;
  return scaledPlane(grid, Math.max(2 * SMALLEST_SIDE_PX, Math.min(MOST_LONG_SIDE_PX, wanted)));
}

function compared(one: Laid, glare: Glare, others: readonly Glare[]): { captureId: number; readings: Reading[] } {
  const { width, height } = one.luminance;
  const mask = turnedBy({ width, height, data: Float32Array.from(glare.mask) }, (4 - one.quarters) % 4);
  const { widthPx, heightPx, pxPerMm } = one.grid;
  const size = pxPerMm === null ? null : { widthMm: widthPx / pxPerMm, heightMm: heightPx / pxPerMm };
  const trust = trustIn(glare, others);
  return {
    captureId: one.captureId,
    readings: [
      {
        name: "glareAreaPercent",
        value: glare.percent,
        ...trust,
        bound: "lower",
        detail: {
          of: "picture",
          comparedWith: others.length,
          worstExcessLightness: glare.worstLightness,
          places: boxesOf(Uint8Array.from(mask.data), mask.width, mask.height, size).slice(0, MOST_PLACES),
        },
      },
    ],
  };
}

/** With one other capture only, what is brighter here may as well be darker there. */
function trustIn(glare: Glare, others: readonly Glare[]): Pick<Present, "reliability" | "note"> {
  const [other, third] = others;
  if (!other || third) return { reliability: "firm" };
  if (glare.percent > 0 && other.percent > BROAD_PERCENT && other.percent > glare.percent) {
    return {
      reliability: "weak",
      note: "The only other capture shines over much of the picture, which upsets the comparison; a third would tell.",
    };
  }
  if (glare.percent === 0) return { reliability: "fair" };
  return { reliability: "fair", note: "With two captures, glare here cannot be told from shadow in the other; a third would tell." };
}

/** Left out along the rim, where the smallest misfit of strong edges looks like glare. */
function marginPx({ widthPx, heightPx, pxPerMm }: PrintGrid, { width, height }: GridPlane): number {
  if (pxPerMm === null) return Math.ceil(MARGIN_SHARE * Math.min(width, height));
  return Math.ceil((MARGIN_MM * pxPerMm * Math.max(width, height)) / Math.max(widthPx, heightPx));
}
