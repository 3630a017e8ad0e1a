import { fillsFrame, frameQuad, isFrameSide } from "../frame.ts";
import { cornersOf, endsOf, isInside, opposite, SIDES, type Side } from "../lines.ts";
import type { Picture } from "../picture.ts";
import type { MeasureContext, Outline, Reading } from "../reading.ts";
import { aspectMisfit, sizeAsSeen } from "../size-as-seen.ts";
import { formatsAsSeen, formatsInWords } from "./formats-as-seen.ts";

/**
 * How many sides of the sheet lie whole inside the frame, 0 to 4: a capture that cuts a side off cannot show that the
 * print is whole. A side that is assumed, because it does not stand out from the ground, or doubted, because the edge seen
 * there may be something else's, counts where it falls inside.
 * A file cropped to the sheet shows all four only if its proportions are those of the catalogued sheet.
 * Where the size of the sheet is not known, note and detail name the formats that a whole sheet of this shape may be of.
 *
 * Needs: an outline. Source: Metamorfoze 2.0 asks for a margin of 3 to 5 mm all round (second-hand).
 */
export function sidesSeen(picture: Picture, outline: Outline | null, context: MeasureContext): Reading[] {
  if (!outline) return [{ name: "sidesSeen", absent: NOT_FOUND }];
  if (fillsFrame(outline, picture)) return [ofCroppedFile(picture, context)];
  const isWhole = (side: Side) =>
    outline.sides[side] !== "cut-off" && !neighboursOf(side).some((each) => isFrameSide(outline.sheet, each, picture));
  const isInFrame = (side: Side) => endsOf(outline.sheet, side).every((end) => isInside(frameQuad(picture), end));
  const kindOf = (side: Side) => {
    if (!isWhole(side) || !isInFrame(side)) return "cut off";
    if (outline.sides[side] === "seen") return "whole";
    return outline.doubted?.includes(side) ? "doubted" : "assumed";
  };
  const kinds = { top: kindOf("top"), right: kindOf("right"), bottom: kindOf("bottom"), left: kindOf("left") };
  const count = (kind: string) => SIDES.filter((side) => kinds[side] === kind).length;
  const [assumed, doubted] = [count("assumed"), count("doubted")];
  const unsure = assumed + doubted;
  const isAllAssumed = SIDES.every((side) => outline.sides[side] === "assumed");
  const { sheet } = sizeAsSeen(outline.sheet, null, context);
  const isOther = count("whole") === SIDES.length && sheet !== null && aspectMisfit(outline.sheet, sheet) > OTHER_PROPORTIONS;
  const formatsFitting = count("whole") === SIDES.length && !context.sheetWidthMm ? formatsAsSeen(outline, context) : null;
  return [
    {
      name: "sidesSeen",
      value: count("whole") + unsure,
      reliability: isOther || unsure === 4 ? "weak" : unsure > 0 || isAllAssumed ? "fair" : "firm",
      ...(isOther && { note: OTHER }),
      ...(unsure === 0 && isAllAssumed && { note: ASSUMED_OUTSIDE }),
      ...(unsure > 0 && { note: outline.doubt === "touching" ? TOUCHING : unsureInWords(assumed, doubted) }),
      ...(formatsFitting && { note: formatsInWords(formatsFitting) }),
      detail: { ...kinds, ...(formatsFitting && { formatsFitting }) },
    },
  ];
}

const unsureInWords = (assumed: number, doubted: number) =>
  [assumed === 4 ? ALL_ASSUMED : assumed > 0 ? ASSUMED : "", doubted === 4 ? ALL_DOUBTED : doubted > 0 ? DOUBTED : ""]
    .filter(Boolean)
    .join(" ");

/** Where a side ends on the frame's edge, the frame cuts it too. */
const neighboursOf = (side: Side): readonly Side[] => SIDES.filter((each) => each !== side && each !== opposite(side));

/** More than the lean of a hand-held camera shortens a side: a side that was found may be another line, as of the picture. */
const OTHER_PROPORTIONS = 0.05;
/** About 2 mm in 100: what is cut away short of that is not noticed. */
const SAME_PROPORTIONS = 0.02;

function ofCroppedFile(picture: Picture, context: MeasureContext): Reading {
  const frame = frameQuad(picture);
  const { sheet } = sizeAsSeen(frame, null, context);
  if (!sheet)
    return {
      name: "sidesSeen",
      absent: `${CROPPED}; the size of the print would help to tell: measure its sheet and enter it in the record`,
    };
  if (aspectMisfit(frame, sheet) > SAME_PROPORTIONS)
    return { name: "sidesSeen", absent: `${CROPPED}, and its proportions are not those of the sheet in the record` };
  return {
    name: "sidesSeen",
    value: cornersOf(frame).length,
    reliability: "fair",
    note: "The file is cropped to the print and has the proportions of its sheet; a cut of a millimetre would not show.",
    detail: { top: "assumed", right: "assumed", bottom: "assumed", left: "assumed" },
  };
}

export const NOT_FOUND =
  "the print could not be told from what lies around it; a plain sheet of another tone behind the print, with a margin all round, would tell";
const CROPPED = "the file is cropped to the print, so whether anything was cut away cannot be seen";
const TOUCHING =
  "This print touches or overlaps the one beside it, and where one ends and the other begins was not seen: set the corners by hand, or capture them apart.";
const OTHER =
  "The proportions of what was found are not those of the sheet in the record, so that one of its sides may be another line: look at the outline, and set the corners by hand or mend the size.";
const ASSUMED = "Some sides do not stand out from the ground and are assumed.";
const ALL_ASSUMED = "No side stands out from the ground: where the sheet ends is assumed, and so is that all of it lies in the frame.";
const ASSUMED_OUTSIDE = "Where the sheet ends is assumed by how its picture lies, and every side comes to lie partly outside the frame.";
const DOUBTED = "Along some sides an edge is seen that may be something else's, such as a line of the ground, so they are doubted.";
const ALL_DOUBTED =
  "The edges that are seen may be those of something else, such as a line of the ground, the picture or a mount, so all sides are doubted.";
