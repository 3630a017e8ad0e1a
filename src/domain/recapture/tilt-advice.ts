import { z } from "zod";
import { lengthOf, type Side } from "../measure/lines.ts";
import { pupilDistanceMm } from "../plan/sampling.ts";
import type { Advice } from "./recapture-line.ts";
import { presentIn, pxPerMmOf, type SeenCapture, SIDE_WORDS } from "./seen-capture.ts";

/** Less than this is what the corners cannot tell. */
const LEAST_TILT = 0.003;

const bothPairs = z.object({
  bottomOverTopPercent: z.number(),
  rightOverLeftPercent: z.number(),
  /** whose sides were compared: those of the whole sheet, or where it is not seen whole, of the picture inside its border */
  basis: z.enum(["sheet", "picture"]).default("sheet"),
});

/**
 * The farther of two opposite sides looks shorter: far / near = 1 + k. With the mean distance D from the lens's entrance pupil and the
 * print's extent h between the two, sin(tilt) = k D / (h (1 + k / 2)). A capture alone does not tell D.
 */
export function tilt(seen: SeenCapture): Advice | null {
  const pairs = tiltedPairs(seen);
  if (!seen.isCamera || pairs.length === 0) return null;
  const sentences = pairs.map(
    (pair) =>
      `The ${SIDE_WORDS[pair.far]} side of the print lay ${(pair.share * 100).toFixed(1)} % farther from the lens than the ${SIDE_WORDS[pair.near]} side: ${depthInWords(pair, seen)}. Raise the ${SIDE_WORDS[pair.far]} side by as much, or tilt the camera until it looks straight down.`,
  );
  const source = "plane perspective: a side looks shorter in proportion to its distance";
  return { sentence: sentences.join(" "), source: seen.lens ? `${source}; ${DISTANCE_TELLS}` : source };
}

const DISTANCE_TELLS = "distance f (1/m + 1/P) by the figures of the set-up";

/** How much lower the far side lay, in mm and as an angle where the distance is known, else for each 10 cm of it. */
function depthInWords({ share, extentMm }: TiltedPair, { lens }: SeenCapture): string {
  const depthOfDistance = share / (1 + share / 2);
  if (lens === null) return `${(100 * depthOfDistance).toFixed(1)} mm for every 10 cm from lens to print`;
  const distanceMm = pupilDistanceMm(lens.focalLengthMm, lens.magnification, lens.pupilMagnification);
  const depthMm = depthOfDistance * distanceMm;
  const angle = extentMm === null ? null : (Math.asin(Math.min(1, depthMm / extentMm)) * 180) / Math.PI;
  return `${depthMm.toFixed(0)} mm${angle === null ? "" : ` (${angle.toFixed(1)}°)`}, the lens being ${Math.round(distanceMm / 10)} cm away`;
}

type TiltedPair = { readonly far: Side; readonly near: Side; readonly share: number; readonly extentMm: number | null };

function tiltedPairs(seen: SeenCapture): TiltedPair[] {
  const keystone = presentIn(seen, "keystonePercent");
  const read = bothPairs.safeParse(keystone?.detail);
  if (!keystone || !read.success) return [];
  const pxPerMm = pxPerMmOf(seen);
  const compared = read.data.basis === "picture" ? seen.outline?.image : seen.outline?.sheet;
  const extent = (side: Side) => (compared && pxPerMm ? lengthOf(compared, side) / pxPerMm : null);
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
  const [lay, cure] = pair.far === soft ? ["farther from", "Raise"] : ["nearer to", "Lower"];
  return {
    sentence: `${it}, which lay ${(100 * pair.share).toFixed(1)} % ${lay} the lens than the other. ${cure} it by ${depthInWords(pair, seen)}.`,
    source: seen.lens ? `${KEYSTONE_TELLS}; ${DISTANCE_TELLS}` : KEYSTONE_TELLS,
  };
}

const KEYSTONE_TELLS = "sharpness by the edges of the print, distance by plane perspective";

function nearestSide(degrees: number): Side {
  const apart = (side: Side) => Math.abs(((degrees - DIRECTION_OF[side] + 540) % 360) - 180);
  return (Object.keys(DIRECTION_OF) as Side[]).toSorted((a, b) => apart(a) - apart(b))[0] as Side;
}
