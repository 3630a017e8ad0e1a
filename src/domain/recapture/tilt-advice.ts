import { z } from "zod";
import { lengthOf, type Side } from "../measure/lines.ts";
import type { Advice } from "./recapture-line.ts";
import { presentIn, pxPerMmOf, type SeenCapture, SIDE_WORDS } from "./seen-capture.ts";

/** Lens to print of a usual copy stand; the angle is told for it, since a capture alone does not tell how far the lens was. */
const USUAL_DISTANCE_MM = 500;
/** Less than this is what the corners cannot tell. */
const LEAST_TILT = 0.003;

const bothPairs = z.object({ bottomOverTopPercent: z.number(), rightOverLeftPercent: z.number() });

/**
 * The farther of two opposite sides looks shorter: far / near = 1 + k. With the mean distance D and the print's extent h between the
 * two, sin(tilt) = k D / (h (1 + k / 2)).
 */
export function tilt(seen: SeenCapture): Advice | null {
  const pairs = tiltedPairs(seen);
  if (!seen.isCamera || pairs.length === 0) return null;
  const sentences = pairs.map(({ far, near, share, extentMm }) => {
    const depthMm = USUAL_DISTANCE_MM * (share / (1 + share / 2));
    const angle = extentMm === null ? null : (Math.asin(Math.min(1, depthMm / extentMm)) * 180) / Math.PI;
    const degrees = angle === null ? "" : ` (${angle.toFixed(1)}°)`;
    return `The ${SIDE_WORDS[far]} side of the print lay ${(share * 100).toFixed(1)} % farther from the lens than the ${SIDE_WORDS[near]} side: with ${USUAL_DISTANCE_MM / 10} cm from lens to print that is ${depthMm.toFixed(0)} mm${degrees}. Raise the ${SIDE_WORDS[far]} side by as much, or tilt the camera until it looks straight down.`;
  });
  return { sentence: sentences.join(" "), source: "plane perspective: a side looks shorter in proportion to its distance" };
}

type TiltedPair = { readonly far: Side; readonly near: Side; readonly share: number; readonly extentMm: number | null };

function tiltedPairs(seen: SeenCapture): TiltedPair[] {
  const keystone = presentIn(seen, "keystonePercent");
  const read = bothPairs.safeParse(keystone?.detail);
  if (!keystone || !read.success) return [];
  const pxPerMm = pxPerMmOf(seen);
  const extent = (side: Side) => (seen.outline && pxPerMm ? lengthOf(seen.outline.sheet, side) / pxPerMm : null);
  const [down, across] = [read.data.bottomOverTopPercent / 100, read.data.rightOverLeftPercent / 100];
  const pairs: TiltedPair[] = [
    { ...(down > 0 ? TOP_FAR : BOTTOM_FAR), share: Math.abs(down), extentMm: extent("left") },
    { ...(across > 0 ? LEFT_FAR : RIGHT_FAR), share: Math.abs(across), extentMm: extent("top") },
  ];
  const least = Math.max(LEAST_TILT, Math.max(...pairs.map(({ share }) => share)) / 4);
  return pairs.filter(({ share }) => share >= least).toSorted((a, b) => b.share - a.share);
}

const TOP_FAR = { far: "top", near: "bottom" } as const;
const BOTTOM_FAR = { far: "bottom", near: "top" } as const;
const LEFT_FAR = { far: "left", near: "right" } as const;
const RIGHT_FAR = { far: "right", near: "left" } as const;

/** Degrees in which each side lies from the middle, as focusFalloffDegrees counts them. */
const DIRECTION_OF: Readonly<Record<Side, number>> = { right: 0, bottom: 90, left: 180, top: 270 };

export function softSide(seen: SeenCapture): Advice | null {
  const direction = presentIn(seen, "focusFalloffDegrees");
  if (!direction) return null;
  const soft = nearestSide(direction.value);
  const it = `It gets softer towards the ${SIDE_WORDS[soft]} side`;
  if (!seen.isCamera) return { sentence: `${it}: there it does not lie on the glass.`, source: "a scanner is sharp on the glass" };
  const pair = tiltedPairs(seen).find(({ far, near }) => far === soft || near === soft);
  if (!pair) return { sentence: `${it}, and no tilt of the sheet is seen: its ${SIDE_WORDS[soft]} side may curl.`, source: KEYSTONE_TELLS };
  const depthMm = USUAL_DISTANCE_MM * (pair.share / (1 + pair.share / 2));
  const [lay, cure] = pair.far === soft ? ["farther from", "Raise"] : ["nearer to", "Lower"];
  return {
    sentence: `${it}, which lay ${(100 * pair.share).toFixed(1)} % ${lay} the lens than the other. ${cure} it by ${depthMm.toFixed(0)} mm where the lens is ${USUAL_DISTANCE_MM / 10} cm away.`,
    source: KEYSTONE_TELLS,
  };
}

const KEYSTONE_TELLS = "sharpness by the edges of the print, distance by plane perspective";

function nearestSide(degrees: number): Side {
  const apart = (side: Side) => Math.abs(((degrees - DIRECTION_OF[side] + 540) % 360) - 180);
  return (Object.keys(DIRECTION_OF) as Side[]).toSorted((a, b) => apart(a) - apart(b))[0] as Side;
}
