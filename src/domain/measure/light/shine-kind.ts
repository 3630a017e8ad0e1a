import { z } from "zod";
import { type SeenShine, type ShineShape, shineShapes } from "./shine-shape.ts";

/** What a reflection may be of, by its shape. "not told" is an answer. */
export const SHINE_KINDS = [
  "window",
  "window with something dark before it",
  "lamp",
  "long lamp",
  "veil",
  "dark shape in a veil",
  "not told",
] as const;
export type ShineKind = (typeof SHINE_KINDS)[number];

/** likely: shape and rim agree, and nothing of it is cut off. possible: one sign is missing. */
type ToldKind = { readonly kind: ShineKind; readonly sure: "likely" | "possible" };

/** Fewer cells show no shape; and what is smaller than this share of the whole may be dirt or a streak. */
const FEWEST_CELLS = 80;
const LEAST_SHARE = 0.01;
/** Four corners and straight sides, perspective and curl allowed for; an ellipse has 0.64, a tube with round ends is told by its length. */
const FOUR_CORNERED = 0.84;
const SURELY_FOUR_CORNERED = 0.88;
const ROUND = 0.74;
const LIKELY_ROUND = 0.7;
const NEARLY_ROUND = 0.8;
/** Least share of the hull: bars that were not quite closed take some of a window's. */
const SOLID = 0.88;
const SOLID_WITH_BARS = 0.82;
/** Rims of flat bright things are sharper, those of bulbs with their halo softer than this. */
const SOFT_RIM = 0.26;
const LONG = 4.2;
const SOLID_IF_LONG = 0.7;
const DARK_PATCH = 0.06;
/** Of its outline at the rim of the picture; with more than the second nothing is known of its shape. */
const CUT_A_LITTLE = 0.1;
const CUT_OFF = 0.33;
/** Cut off and as large as this, it is the light of something wider than the print. */
const WIDE = 0.25;

const NOT_TOLD: ToldKind = { kind: "not told", sure: "possible" };

/**
 * Which kind of thing was mirrored, by the shape of its light (shine-shape.ts). Four corners and straight sides are those of a window, but also of a
 * screen, a bright door or a square lamp face; bars across them are a window's alone. Thresholds were set on drawn reflections of the seeds 1 to 12 and
 * looked at once on others, and on those of another program: see test/accuracy.
 * Source: own.
 */
function kindOfShine(shape: ShineShape): ToldKind {
  const { cells, share, fourCornered, solidity, elongation, softRim, cutOff, bars, darkPatch } = shape;
  if (cells < FEWEST_CELLS || share < LEAST_SHARE) return NOT_TOLD;
  const isWhole = cutOff < CUT_A_LITTLE;
  const told = (kind: ShineKind, isLikely: boolean): ToldKind => ({ kind, sure: isLikely && isWhole ? "likely" : "possible" });
  if (cutOff > CUT_OFF) {
    if (share > WIDE) return { kind: "veil", sure: softRim > SOFT_RIM / 2 ? "likely" : "possible" };
    return bars > 0 && fourCornered >= FOUR_CORNERED ? told("window", false) : NOT_TOLD;
  }
  if (elongation >= LONG && solidity >= SOLID_IF_LONG && darkPatch < DARK_PATCH) return told("long lamp", elongation > 1.3 * LONG);
  const isSharp = softRim < SOFT_RIM;
  if (fourCornered >= FOUR_CORNERED && isSharp && darkPatch >= DARK_PATCH) return told("window with something dark before it", bars === 0);
  if (fourCornered >= FOUR_CORNERED && isSharp && bars > 0 && solidity >= SOLID_WITH_BARS) return told("window", true);
  if (fourCornered >= FOUR_CORNERED && isSharp && solidity >= SOLID) return told("window", fourCornered >= SURELY_FOUR_CORNERED);
  if (fourCornered <= ROUND && solidity >= SOLID) return told("lamp", fourCornered <= LIKELY_ROUND);
  if (fourCornered <= NEARLY_ROUND && !isSharp && solidity >= SOLID) return told("lamp", false);
  return NOT_TOLD;
}

/** A reflection as a reading tells it. */
export type ToldShine = {
  readonly looksLike: ShineKind;
  readonly sure: ToldKind["sure"];
  /** of what was looked at */
  readonly sharePercent: number;
  /** its middle, from the left and from the top of it */
  readonly fromLeftPercent: number;
  readonly fromTopPercent: number;
} & Pick<ShineShape, "fourCornered" | "solidity" | "elongation" | "softRim" | "cutOff" | "bars" | "darkPatch">;

/** Every reflection that is large enough to be looked at, the largest first. */
export function toldShines(seen: SeenShine): ToldShine[] {
  return shineShapes(seen)
    .filter(({ cells }) => cells >= FEWEST_CELLS)
    .map((shape) => {
      const { kind, sure } = kindOfShine(shape);
      const { fourCornered, solidity, elongation, softRim, cutOff, bars, darkPatch, share, middle } = shape;
      return {
        looksLike: kind,
        sure,
        sharePercent: 100 * share,
        fromLeftPercent: 100 * middle.x,
        fromTopPercent: 100 * middle.y,
        ...{ fourCornered, solidity, elongation, softRim, cutOff, bars, darkPatch },
      };
    });
}

/** As much of reflections as is read again from what a reading kept. */
export const keptShines = z.array(
  z.object({ looksLike: z.enum(SHINE_KINDS), sure: z.enum(["likely", "possible"]), sharePercent: z.number().default(0) }),
);
type KeptShine = z.infer<typeof keptShines>[number];

const WORDS: Readonly<Record<ShineKind, readonly [likely: string, possible: string]>> = {
  window: [
    "By its four corners and straight sides the largest reflection is a window, or a screen or lamp face of that shape.",
    "The largest reflection may be a window: it has four corners, but not all signs of one.",
  ],
  "window with something dark before it": [
    "The largest reflection is a window with a dark shape before it, as of a camera, a hand or somebody standing there.",
    "The largest reflection may be a window with a dark shape before it, as of a camera, a hand or somebody standing there.",
  ],
  lamp: ["By its round shape the largest reflection is a lamp.", "The largest reflection may be a lamp: it is roundish."],
  "long lamp": [
    "By its length the largest reflection is a tube or strip of lamps.",
    "The largest reflection may be a tube or strip of lamps.",
  ],
  veil: [
    "It is the soft light of something wide, such as a bright wall or ceiling.",
    "It may be the light of something wide, such as a bright wall or ceiling: its ends are not seen.",
  ],
  "dark shape in a veil": [
    "Wide light is mirrored all over it but for a dark shape, as of a camera, a phone or a hand; the light itself is told as haze.",
    "Wide light seems to be mirrored all over it but for a dark shape, as of a camera, a phone or a hand; the light itself is told as haze.",
  ],
  "not told": ["", "What is mirrored cannot be told from its shape."],
};

/** A sentence for the keeper of the largest one; null where there is none, or one too small to speak of. */
export function shineInWords([largest]: readonly KeptShine[]): string | null {
  if (!largest || (largest.looksLike === "not told" && largest.sharePercent < 100 * LEAST_SHARE)) return null;
  return WORDS[largest.looksLike][largest.sure === "likely" ? 0 : 1];
}
