import { type EdgeStrip, edgePlaces, FEWEST_ROWS, meanSlope, wholeCycles } from "./edge-places.ts";
import { BINS_PER_PX, levelsOf, plainRows, plateaus, project } from "./edge-spread.ts";

/** How far red and blue lie from green at one edge, px across it; positive towards higher columns of the strip. */
export type ChannelShift = {
  readonly redPx: number;
  readonly bluePx: number;
  /** lean of the edge from the columns, as a slope */
  readonly slope: number;
};

/**
 * The largest way between two of the three colours across one edge, px: the quantity that published levels are held against. FADGI 2016
 * takes it from the places of R, G and B at a slanted edge, so that each edge speaks for the direction across it alone (that it is the
 * largest pair of one edge is from memory; Burns and Williams, "Using slanted edge analysis for color registration measurement",
 * IS&T PICS 1999, read it so, edge by edge).
 */
export const waysApart = ({ redPx, bluePx }: Pick<ChannelShift, "redPx" | "bluePx">): number =>
  Math.max(Math.abs(redPx), Math.abs(bluePx), Math.abs(redPx - bluePx));

/**
 * Each channel is read as one edge spread function along the line that green's edge follows (edge-spread.ts), scaled to
 * its own plateaus, so that neither colour of paper nor of ground counts. The area between two of them is the way between
 * their edges, whatever the blur of each. Returns a refusal, in words for the keeper, when an edge cannot be read.
 * @param bright the side on which the paper must be, where that is known: else a dark picture on a light ground would be read, whose own
 *   colours change along its edge
 */
export function channelShift(strips: readonly [EdgeStrip, EdgeStrip, EdgeStrip], bright?: "left" | "right"): ChannelShift | string {
  const green = strips[1];
  const places = green.rows < FEWEST_ROWS ? null : edgePlaces(green);
  if (!places) return "no straight edge was found";
  if (bright !== undefined && brightRight(green) !== (bright === "right")) return "the ground beside it is not dark enough";
  const spreads: Float64Array[] = [];
  for (const strip of strips) {
    const levels = plateaus(strip, places.columns);
    if (!levels) return "the edge leaves the strip that was looked at";
    const rows = plainRows(levels, places, wholeCycles(places.columns));
    if (rows.length < FEWEST_ROWS || rows.length < LEAST_PLAIN * strip.rows) return "what lies beside the edge changes too much along it";
    const light = levelsOf(levels, rows);
    if (light.dark > MOST_GROUND * light.bright) return "the ground beside it is not dark enough";
    if (light.bright > MOST_BRIGHT) return "the border beside it is clipped to white";
    const spread = project(strip, places.columns, levels, rows);
    if (spread.noise > MOST_NOISE) return "noise or texture drowns the edge";
    spreads.push(spread.values);
  }
  const grounds = spreads.map(besideEdge);
  if (Math.max(...grounds) - Math.min(...grounds) > MOST_BESIDE) return "a shadow or a line beside it has a colour of its own";
  const slope = meanSlope(places.columns);
  const [red, , blue] = spreads.map((values) => areaBetween(spreads[1] as Float64Array, values)) as [number, number, number];
  // the spread runs from dark to bright; a strip that is bright on its left runs the other way
  const sign = brightRight(green) ? 1 : -1;
  const across = sign / Math.hypot(1, slope);
  return { redPx: across * red, bluePx: across * blue, slope };
}

const LEAST_PLAIN = 0.4;
/** On a light ground a coloured fringe of the ground itself passes for a shift. */
const MOST_GROUND = 0.35;
const MOST_BRIGHT = 0.98;
const MOST_NOISE = 0.1;
/** px to both sides that hold the rise of a usable edge and the colour blur of a JPEG with halved colour. */
const REACH_PX = 8;
/**
 * The shadow that a print throws on a table takes the more from a channel the lighter the table is in it, and passes for a shift of that
 * channel, outwards on all sides as the lateral colour of a lens. From to which way from the edge it is looked for, px.
 */
const BESIDE_PX = [6, 8] as const;
/** Drawn shadows that take a quarter to a half of the light, over 10 px, on coloured grounds: where channels lie less apart, the way is misread by 0.1 px at most. */
const MOST_BESIDE = 0.012;

/** How much further towards the bright side the other edge lies, in px along the rows; each runs from the ground close by it to its paper. */
function areaBetween(green: Float64Array, other: Float64Array): number {
  const [greenGround, otherGround] = [besideEdge(green), besideEdge(other)];
  let sum = 0;
  for (let bin = -BESIDE_PX[0] * BINS_PER_PX; bin < REACH_PX * BINS_PER_PX; bin++) {
    const greenLight = ((green[green.length / 2 + bin] as number) - greenGround) / (1 - greenGround);
    sum += greenLight - ((other[other.length / 2 + bin] as number) - otherGround) / (1 - otherGround);
  }
  return sum / BINS_PER_PX;
}

/** The level of the ground close by the edge, where a shift no longer reaches; 0 where it is that of the ground further off, as a share of the step. */
function besideEdge(values: Float64Array): number {
  const middle = values.length / 2;
  const near = values.subarray(middle - BESIDE_PX[1] * BINS_PER_PX, middle - BESIDE_PX[0] * BINS_PER_PX);
  return near.reduce((sum, value) => sum + value, 0) / near.length;
}

function brightRight({ rows, widthPx, data }: EdgeStrip): boolean {
  let difference = 0;
  for (let row = 0; row < rows; row++) difference += (data[(row + 1) * widthPx - 1] as number) - (data[row * widthPx] as number);
  return difference >= 0;
}
