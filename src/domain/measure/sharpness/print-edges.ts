import { homographyFromMm, scaleAt } from "../homography.ts";
import { distanceTo, endsOf, linesOf, opposite, SIDES, type Side } from "../lines.ts";
import { whyNoEdge } from "../outline/doubted-sides.ts";
import type { Picture, Point, Quad } from "../picture.ts";
import type { MeasureContext, Outline } from "../reading.ts";
import { sizeAsSeen } from "../size-as-seen.ts";
import { unclippedWeights } from "./edge-clipping.ts";
import { type EdgePlaces, edgePlaces, FEWEST_ROWS } from "./edge-places.ts";
import { type SideStrip, sideStrip, stripPlace } from "./side-strip.ts";
import { type EdgeRefusal, type EdgeResponse, slantedEdge } from "./slanted-edge.ts";

/** One side of the sheet or of the picture on it, read as an edge or refused. */
export type PrintEdge = {
  readonly of: "sheet" | "picture";
  readonly side: Side;
  /** across upright sides (left, right) detail along the rows is read; across the others, down the columns */
  readonly direction: "across" | "down";
  /** sampling across this side, null when the size is not known */
  readonly pxPerMm: number | null;
  readonly response: EdgeResponse | null;
  /** why it cannot be used */
  readonly refused: string | null;
  /** an edge of the sheet that stands out clearly from its ground: the best there is */
  readonly isClean: boolean;
  /** half-width of what its SFR50 is expected within, as a share of it */
  readonly spreadShare: number;
  /** the side piece by piece, also where the whole is refused; pieces that cannot be read are left out */
  readonly stretches: readonly EdgeStretch[];
};

/** A piece of a side, read as an edge of its own. */
export type EdgeStretch = {
  /** its middle in the frame */
  readonly place: Point;
  readonly sfr50CyPerPx: number;
  readonly spreadShare: number;
};

type EdgeReading = Pick<PrintEdge, "response" | "refused" | "isClean" | "spreadShare">;
type SideReading = EdgeReading & Pick<PrintEdge, "stretches">;

const HALF_PX = 24;
const WIDEST_HALF_PX = 64;
const NARROWEST_HALF_PX = 12;
/** A strip this many times the spread of the edge holds its tails. */
const SPREADS_HELD = 16;
/** Full 10-90 % rise of a Gaussian edge, in standard deviations. */
const RISE_OF_GAUSSIAN = 2.563;
const MOST_UNEVEN = 0.03;
/** A dark line along the sheet: its dip on the ground is deeper than an edge's own swing. */
const LEAST_SHADOW = 0.03;

/**
 * Of the usable edges the ones to rely on: clean sides of the sheet; else the sides of the picture, whose own sharpness
 * is not known; else sides of the sheet on a ground much like it. None of them when none is usable.
 */
export function bestEdges<E extends PrintEdge>(usable: readonly E[]): readonly E[] {
  const clean = usable.filter((edge) => edge.isClean);
  const ofPicture = usable.filter((edge) => edge.of === "picture");
  return clean.length > 0 ? clean : ofPicture.length > 0 ? ofPicture : usable;
}

/** Reads the four sides of the sheet and, where a border was told apart, the four of the picture. */
export function printEdges(picture: Picture, outline: Outline, context: MeasureContext): PrintEdge[] {
  const size = sizeAsSeen(outline.sheet, outline.image, context).sheet;
  const map = size && homographyFromMm(size.widthMm, size.heightMm, outline.sheet);
  const edges = (of: "sheet" | "picture", quad: Quad) =>
    SIDES.map((side): PrintEdge => {
      const direction = side === "left" || side === "right" ? "across" : "down";
      const middle = size && {
        x: side === "left" ? 0 : side === "right" ? size.widthMm : size.widthMm / 2,
        y: side === "top" ? 0 : side === "bottom" ? size.heightMm : size.heightMm / 2,
      };
      const scale = map && middle && scaleAt(map, middle.x, middle.y);
      const pxPerMm = scale && (direction === "across" ? scale.alongX : scale.alongY);
      const unseen = whyNoEdge(outline, side);
      if (of === "sheet" && unseen) {
        return {
          of,
          side,
          direction,
          pxPerMm,
          response: null,
          refused: unseen,
          isClean: false,
          spreadShare: 0,
          stretches: [],
        };
      }
      return { of, side, direction, pxPerMm, ...readSide(picture, outline, quad, of, side) };
    });
  return [...edges("sheet", outline.sheet), ...(outline.image ? edges("picture", outline.image) : [])];
}

function readSide(picture: Picture, outline: Outline, quad: Quad, of: "sheet" | "picture", side: Side): SideReading {
  const room = Math.floor(roomPx(outline, quad, side));
  if (room < NARROWEST_HALF_PX) return { ...refuse("too little room beside the edge"), stretches: [] };
  const [from, to] = endsOf(quad, side);
  const narrow = stripPlace(picture, side, from, to, Math.min(HALF_PX, room));
  if (!narrow) return { ...refuse("less than half of it lies in the frame"), stretches: [] };
  const weights = unclippedWeights(picture, side, narrow);
  if (!weights) return { ...refuse(CLIPPED), stretches: [] };
  const read = (halfPx: number) => {
    const strip = sideStrip(picture, side, from, to, halfPx, weights);
    if (!strip) return null;
    const places = edgePlaces(strip);
    const whole = slantedEdge(strip, places);
    const pieces = piecesOf(strip, places).map(({ strip, places }) => ({
      middle: strip.first + (strip.rows - 1) / 2,
      response: slantedEdge(strip, places, 0.5),
    }));
    return { halfPx, whole, pieces, widestPx: Math.max(0, ...[whole, ...pieces.map(({ response }) => response)].map(widthOf)) };
  };
  let found = read(Math.min(HALF_PX, room));
  if (!found) return { ...refuse("less than half of it lies in the frame"), stretches: [] };
  const wanted = heldBy(found.widestPx);
  if (wanted > found.halfPx && room > found.halfPx) found = read(Math.min(room, WIDEST_HALF_PX, wanted)) ?? found;
  const { halfPx, whole, pieces } = found;
  const readingOf = (response: EdgeResponse | EdgeRefusal): EdgeReading => {
    if ("refused" in response) return refuse(response.refused);
    return halfPx < heldBy(response.widthPx) / 2 ? refuse("too blurred for the room beside the edge", response) : judged(response, of);
  };
  const stretches = pieces.flatMap(({ middle, response }): EdgeStretch[] => {
    if (of === "sheet" && !("refused" in response) && response.stepRange > MOST_STEP_RANGE) return [];
    const reading = readingOf(response);
    if (!reading.response || reading.response.sfr50 === null || brightLevel(reading.response) > CLIPPED_LEVEL) return [];
    const isAlongPixels = reading.refused === ALONG_PIXELS;
    if (reading.refused !== null && !isAlongPixels) return [];
    const spreadShare = isAlongPixels ? UNSURE_ALONG_PIXELS : reading.spreadShare;
    return [{ place: placeOn(from, to, side, middle), sfr50CyPerPx: reading.response.sfr50, spreadShare }];
  });
  return { ...readingOf(whole), stretches };
}

const refuse = (refused: string, response: EdgeResponse | null = null): EdgeReading => ({
  response,
  refused,
  isClean: false,
  spreadShare: 0,
});

const widthOf = (response: EdgeResponse | EdgeRefusal) => ("refused" in response ? 0 : response.widthPx);

/** Half-width of a strip, px, that holds the tails of an edge of this 10-90 % rise. */
const heldBy = (widthPx: number) => Math.ceil((SPREADS_HELD * widthPx) / RISE_OF_GAUSSIAN);

/** Pieces of equal length, at most six, long enough to be read, with the places of the edge where they are known. */
function piecesOf({ first, rows, widthPx, data, startPx }: SideStrip, places: EdgePlaces | null) {
  const count = Math.min(MOST_STRETCHES, Math.floor(rows / LEAST_STRETCH_PX));
  return Array.from({ length: count }, (_, index) => {
    const [begin, end] = [Math.floor((index * rows) / count), Math.floor(((index + 1) * rows) / count)];
    const strip: SideStrip = {
      first: first + begin,
      rows: end - begin,
      widthPx,
      data: data.subarray(begin * widthPx, end * widthPx),
      startPx: startPx.subarray(begin, end),
    };
    return { strip, places: places && { columns: places.columns.subarray(begin, end), agree: places.agree.subarray(begin, end) } };
  });
}

/** The point of a side at a row of the frame (for upper and lower sides: at a column). */
function placeOn(from: Point, to: Point, side: Side, row: number): Point {
  const upright = side === "left" || side === "right";
  const share = upright ? (row - from.y) / (to.y - from.y) : (row - from.x) / (to.x - from.x);
  return { x: from.x + share * (to.x - from.x), y: from.y + share * (to.y - from.y) };
}

const MOST_STRETCHES = 6;
/** Cut to whole cycles a piece keeps at least half of its rows, which is then still enough to be read. */
const LEAST_STRETCH_PX = 2 * FEWEST_ROWS;
/** A piece of the sheet's side whose step changes by more has glare or a shadow on a part of it, with an edge of its own. */
const MOST_STEP_RANGE = 0.12;
/** Linear light of the bright side from which an edge is cut off at white, and looks sharper than it is. */
const CLIPPED_LEVEL = 0.97;
const brightLevel = ({ step, contrast }: EdgeResponse) => (step / contrast + step) / 2;
const CLIPPED = "its bright side is clipped to white, which makes an edge look sharper than it is; less exposure would help";
const ALONG_PIXELS = "the edge lies too exactly along the pixels; a turn of 2 to 5° would help";
const UNSURE_ALONG_PIXELS = 0.15;

/** The rules for edges that lie along the pixel rows, for shadows and for plateaus that are not plain. */
function judged(response: EdgeResponse, of: "sheet" | "picture"): EdgeReading {
  const { sfr50, cycles, emptyShare, contrast, unevenness, undershoot, overshoot, stepToNoise } = response;
  if (sfr50 === null) return refuse("its contrast does not fall to half", response);
  if (unevenness > MOST_UNEVEN) return refuse("what lies beside the edge is not plain", response);
  if (of === "sheet" && undershoot > LEAST_SHADOW && undershoot > 2 * overshoot)
    return refuse("a dark line or shadow runs along the edge", response);
  const isSharp = sfr50 >= SHARP_CYCLES_PER_PX;
  if (isSharp && (cycles < FULL_CYCLES || emptyShare > MOST_EMPTY)) return refuse(ALONG_PIXELS, response);
  const alongPixels = cycles < HALF_CYCLE ? UNSURE_ALONG_PIXELS : cycles < FULL_CYCLES || emptyShare > MOST_EMPTY ? 0.05 : 0.02;
  const isClean = of === "sheet" && contrast >= CLEAN_CONTRAST && stepToNoise >= CLEAN_STEP_TO_NOISE;
  return { response, refused: null, isClean, spreadShare: Math.max(alongPixels, isClean ? 0.02 : 0.1) };
}

const CLEAN_CONTRAST = 0.3;
const CLEAN_STEP_TO_NOISE = 20;
const FULL_CYCLES = 1.5;
const HALF_CYCLE = 0.5;
const MOST_EMPTY = 0.05;
const SHARP_CYCLES_PER_PX = 0.2;

const MOST_PICTURE_SPREAD_PX = 2;

/** px to both sides of a side that no other edge and no end of the frame comes near. */
function roomPx(outline: Outline, quad: Quad, side: Side): number {
  // The sides of the picture are seen, whatever becomes of those of the sheet.
  const keepAway = 3 + 2 * (quad === outline.image ? Math.min(MOST_PICTURE_SPREAD_PX, outline.cornerSpreadPx) : outline.cornerSpreadPx);
  const ends = endsOf(quad, side);
  const least = (other: Quad, otherSide: Side) => Math.min(...ends.map((end) => Math.abs(distanceTo(linesOf(other)[otherSide], end))));
  const neighbour = quad === outline.sheet ? outline.image : outline.sheet;
  const across = Math.min(least(quad, opposite(side)) / 4, WIDEST_HALF_PX + keepAway);
  return Math.min(across, neighbour ? least(neighbour, side) : across) - keepAway;
}
