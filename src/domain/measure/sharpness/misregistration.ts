import { HOLDS_NO_COLOUR, isColourless } from "../colour/colourless.ts";
import { isLossyFile } from "../file/lossy-kinds.ts";
import { distanceTo, endsOf, isUpright, linesOf, SIDES, type Side } from "../lines.ts";
import { evenlyWithin } from "../numbers/standard-uncertainty.ts";
import { whyNoEdge } from "../outline/doubted-sides.ts";
import type { Picture } from "../picture.ts";
import type { MeasureContext, Outline, Reading } from "../reading.ts";
import { type ChannelShift, channelShift, waysApart } from "./channel-shift.ts";
import { type SideStrip, sideStrip, type Weights } from "./side-strip.ts";

/**
 * Misregistration of the colour channels, px: the largest distance between two of red, green and blue at the edges of the
 * sheet on a dark ground, in linear light. For each side the way of red and of blue from green across the edge is read
 * (channel-shift.ts); the side with the largest way between two of them counts, as at the edges of a target. The detail has the largest
 * across the frame and down it, and both joined, since a shift across a corner is longer than either.
 *
 * The detail has each side, and two causes apart: the offset, which all sides share (a scanner whose colours are read one
 * after another, or a frame put together from three), and the lateral colour of a lens, which goes opposite ways on
 * opposite sides.
 *
 * Needs: sides of the sheet seen on a ground much darker than the paper. Only upright or only level sides: at least.
 * Not comparable when: the paper's own cut edge is coloured or lit from one side.
 * Source: FADGI 2016, colour channel misregistration (meaning: distance between the edges of R, G and B); the procedure
 * is own.
 */
export function misregistration(picture: Picture, outline: Outline | null, context: MeasureContext): Reading[] {
  const name = "misregistrationPx";
  if (!outline) return [{ name, absent: "the print was not found in the frame" }];
  if (isColourless(picture)) return [{ name, absent: HOLDS_NO_COLOUR }];
  const all = SIDES.map((side) => ({ side, shift: shiftAt(picture, outline, side) }));
  const read = all.filter((each): each is SideShift => typeof each.shift !== "string");
  if (read.length === 0) {
    const reasons = [...new Set(all.map(({ shift }) => shift))].join("; ");
    return [{ name, absent: `no side of the sheet can be used: ${reasons}. A dark, plain ground round the print would tell` }];
  }
  const across = read.filter(({ side }) => isUpright(side));
  const down = read.filter(({ side }) => !isUpright(side));
  const [acrossPx, downPx] = [across, down].map((sides) => Math.max(0, ...sides.map(({ shift }) => waysApart(shift)))) as [number, number];
  const both = across.length > 0 && down.length > 0;
  const isLossy = isLossyFile(context);
  const notes = [
    ...(both ? [] : [`Read ${across.length > 0 ? "across" : "down"} the frame only; no side could be used in the other direction.`]),
    ...(isLossy ? ["The file's compression keeps colours coarsely, which blurs what is read here."] : []),
  ];
  return [
    {
      name,
      value: Math.max(acrossPx, downPx),
      spread: isLossy ? LOSSY_SPREAD_PX : SPREAD_PX,
      reliability: both && !isLossy ? "firm" : "fair",
      ...(!both && { bound: "lower" }),
      ...(notes.length > 0 && { note: notes.join(" ") }),
      detail: {
        acrossPx: across.length > 0 ? acrossPx : null,
        downPx: down.length > 0 ? downPx : null,
        joinedPx: both ? Math.hypot(acrossPx, downPx) : null,
        sides: Object.fromEntries(read.map(({ side, shift }) => [side, { redPx: shift.redPx, bluePx: shift.bluePx }])),
        offset: partsOf(across, down, 1),
        lateralColour: partsOf(across, down, -1),
      },
    },
  ];
}

type SideShift = { readonly side: Side; readonly shift: ChannelShift };

const HALF_PX = 24;
const NARROWEST_HALF_PX = 12;
/** On drawn prints with shifts of 0 to 1 px, leans of 0 to 8° and noise of 1 L* no reading was further off. */
const SPREAD_PX = evenlyWithin(0.05);
/** The same saved as JPEG at quality 90, with colours at full and at half size. */
const LOSSY_SPREAD_PX = evenlyWithin(0.1);

const RED: Weights = [1, 0, 0];
const GREEN: Weights = [0, 1, 0];
const BLUE: Weights = [0, 0, 1];

const RED_WAY = ({ redPx }: ChannelShift) => redPx;
const BLUE_WAY = ({ bluePx }: ChannelShift) => bluePx;

function shiftAt(picture: Picture, outline: Outline, side: Side): ChannelShift | string {
  const unseen = whyNoEdge(outline, side);
  if (unseen) return unseen;
  const [from, to] = endsOf(outline.sheet, side);
  const halfPx = Math.min(HALF_PX, Math.floor(borderPx(outline, side)) - 3);
  if (halfPx < NARROWEST_HALF_PX) return "too little room beside the edge";
  const strips = [RED, GREEN, BLUE].map((weights) => sideStrip(picture, side, from, to, halfPx, weights));
  if (strips.includes(null)) return "less than half of it lies in the frame";
  // the paper lies within the sheet
  return channelShift(strips as [SideStrip, SideStrip, SideStrip], side === "left" || side === "top" ? "right" : "left");
}

/** Width of the border at its narrower end; where none was told apart, an eighth of the sheet. */
function borderPx({ sheet, image }: Outline, side: Side): number {
  const line = linesOf(sheet)[side];
  if (image) return Math.min(...endsOf(image, side).map((end) => distanceTo(line, end)));
  const [topLeft, bottomRight] = [sheet.topLeft, sheet.bottomRight];
  return Math.min(Math.abs(bottomRight.x - topLeft.x), Math.abs(bottomRight.y - topLeft.y)) / 8;
}

/** Half the sum (1) or half the difference (-1) of opposite sides; what one side alone shows cannot be told apart. */
function partsOf(across: readonly SideShift[], down: readonly SideShift[], sign: 1 | -1) {
  const part = (sides: readonly SideShift[], wayOf: (shift: ChannelShift) => number) => {
    const later = sides.find(({ side }) => side === "right" || side === "bottom");
    const earlier = sides.find(({ side }) => side === "left" || side === "top");
    return later && earlier ? (wayOf(later.shift) + sign * wayOf(earlier.shift)) / 2 : null;
  };
  return {
    redAcrossPx: part(across, RED_WAY),
    redDownPx: part(down, RED_WAY),
    blueAcrossPx: part(across, BLUE_WAY),
    blueDownPx: part(down, BLUE_WAY),
  };
}
