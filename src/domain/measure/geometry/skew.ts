import { isFrameSide, wholeImage } from "../frame.ts";
import { homographyFromMm, project } from "../homography.ts";
import { endsOf, lengthOf, SIDES, type Side } from "../lines.ts";
import type { Picture, Quad } from "../picture.ts";
import type { MeasureContext, Outline, Reading } from "../reading.ts";
import { straightenedQuad } from "./lens.ts";
import { NOT_FOUND } from "./sides-seen.ts";

/**
 * How far the print is turned in the frame, in degrees, without sign; detail has the sign (clockwise is positive). Read
 * at the middle of the sheet, across it, where a tilt of the camera changes it least; from a single side or two where
 * the frame cuts the print. A print lying on its side is not skewed.
 *
 * Needs: one side of the sheet in the frame, or its picture. Source: FADGI 2016 (shoot within ±1°); Metamorfoze 2.0
 * (about 1° for loose sheets, second-hand).
 */
export function skew(picture: Picture, outline: Outline | null, _context: MeasureContext): Reading[] {
  if (!outline) return [{ name: "skewDegrees", absent: NOT_FOUND }];
  const placed = SIDES.filter((side) => outline.sides[side] !== "assumed" && !isFrameSide(outline.sheet, side, picture));
  const isCut = SIDES.some((side) => outline.sides[side] === "cut-off" && isFrameSide(outline.sheet, side, picture));
  // Of a cut print the sides that are left tell more surely than what is left of its picture.
  const image = isCut && placed.length > 0 ? null : wholeImage(outline, picture);
  const isSure = outline.cornerSpreadPx < SURE_SHARE * lengthOf(outline.sheet, "top");
  if (placed.length === 4 && (isSure || !image))
    return [
      read(turnInTheMiddle(straightenedQuad(outline.sheet, outline.radial, picture)), "sheet", outline.cornerSpreadPx, outline.sheet, 2),
    ];
  if (image)
    return [
      read(
        turnInTheMiddle(straightenedQuad(image, outline.radial, picture)),
        "picture",
        PICTURE_CORNER_SHARE * lengthOf(image, "top"),
        image,
        2,
      ),
    ];
  if (placed.length === 0) return [{ name: "skewDegrees", absent: "the file is cropped to the print, so how it lay is no longer seen" }];
  const turns = placed.map((side) => turnOf(outline.sheet, side));
  return [
    {
      ...read(turns.reduce((sum, turn) => sum + turn, 0) / turns.length, "sides", outline.cornerSpreadPx, outline.sheet, placed.length),
      reliability: "fair",
      note: `Read from ${placed.length === 1 ? "one side" : `${placed.length} sides`} only, because the frame cuts the print.`,
    },
  ];
}

/** A sheet whose corners are less sure than this turns less surely than its picture does. */
const SURE_SHARE = 0.0015;
/** Corners of pictures on drawn prints: 0.07 mm in 80. */
const PICTURE_CORNER_SHARE = 0.0009;

/**
 * A side of length L whose two ends each lie across it within c turns within √2 c / L (JCGM 100:2008, 5.1.2); the mean of n sides within
 * √(2 / n) c / L. At the middle of the sheet two opposite sides are as good as averaged.
 */
function read(degrees: number, basis: string, cornerSpreadPx: number, quad: Quad, sides: number) {
  const [from, to] = endsOf(quad, "top");
  const across = Math.sqrt(2 / sides) * cornerSpreadPx;
  const spread = (Math.atan2(across, Math.hypot(to.x - from.x, to.y - from.y)) * 180) / Math.PI;
  return {
    name: "skewDegrees" as const,
    value: Math.abs(degrees),
    spread,
    reliability: "firm" as const,
    detail: { degreesClockwise: degrees, basis },
  };
}

/** Direction of the line across the middle of the rectangle, straightened. */
function turnInTheMiddle(quad: Quad): number {
  const map = homographyFromMm(1, 1, quad);
  const before = project(map, 0.499, 0.5);
  const after = project(map, 0.501, 0.5);
  return (Math.atan2(after.y - before.y, after.x - before.x) * 180) / Math.PI;
}

/** Turn of a side from its own axis, degrees. */
function turnOf(quad: Quad, side: Side): number {
  const [from, to] = endsOf(quad, side);
  const turn = (Math.atan2(to.y - from.y, to.x - from.x) * 180) / Math.PI - 90 * SIDES.indexOf(side);
  return ((((turn + 180) % 360) + 360) % 360) - 180;
}
