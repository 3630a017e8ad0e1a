import { type Glare, glareAmong, type NoGlare } from "./glare-among.ts";
import { blurred, type GridPlane } from "./grid-plane.ts";
import type { Laid } from "./lay-finely.ts";
import { markedArea } from "./marked-area.ts";
import { boxesOf } from "./mask.ts";
import type { Present, Reading } from "./reading.ts";
import { shineInWords, toldShines } from "./shine-kind.ts";

/**
 * Glare by comparison: share of the picture, in percent, that shines in one capture and not in the others of the same
 * print, and the largest lightness that it adds (glarePeakDeltaL, L*). Their tones are mapped onto each other, and what is left brighter is glare (see glare-among.ts).
 * What was mirrored is told by the shape of the light that is added (shine-kind.ts), as \`reflections\` of the area's detail and in its note.
 *
 * With two captures a brighter place may be glare in one or shadow in the other: the reading is fair. Which of the two shines where much of the picture
 * does is told by the print's own blacks (plain-places.ts), and absent for both where they do not tell. With three or more it is firm. Either way "at least": shine that all captures share is not seen, and of shine broader than a third of the
 * picture only the brightest part is.
 *
 * Source: common practice, no source.
 */
export function glareTogether(laid: readonly Laid[]): Reading[][] {
  const smooth = laid.map(({ coarse }) => blurred(coarse, SMOOTHING_PX));
  const glares = glareAmong(smooth, marginPx(laid[0] as Laid));
  if (typeof glares === "string") return laid.map(() => GLARE_TOGETHER.map((name) => ({ name, absent: WHY_NOT[glares] })));
  return glares.map((glare, index) => {
    const others = glares.filter((other) => other !== glare);
    const trust = trustIn(glare, others);
    const peak = { name: "glarePeakDeltaL", value: glare.worstLightness, bound: "lower", detail: { comparedWith: others.length } } as const;
    return [areaOf(laid[index] as Laid, glare, others.length, trust), { ...peak, ...trust }];
  });
}

export const GLARE_TOGETHER = ["glareAreaPercent", "glarePeakDeltaL"] as const;

const WHY_NOT: Readonly<Record<NoGlare, string>> = {
  "too little seen": "too little of the picture is seen, and not clipped to white, in all captures",
  "not told":
    "the two captures differ as when one of them shines or is shaded over a part of the picture, and which of them it is does not show; a third capture, or one with the light moved, would tell",
};

const SMOOTHING_PX = 2;
/** Left out along the rim, where the smallest misfit of strong edges looks like glare. */
const MARGIN_MM = 2;
const MARGIN_SHARE = 0.025;
const MOST_PLACES = 12;
/** Glare of this share in one of two captures makes tones of the other doubtful. */
const BROAD_PERCENT = 10;

function marginPx({ coarse, pxPerMm }: { readonly coarse: Pick<GridPlane, "width" | "height">; readonly pxPerMm: number | null }): number {
  return Math.ceil(pxPerMm === null ? MARGIN_SHARE * Math.min(coarse.width, coarse.height) : MARGIN_MM * pxPerMm);
}

function areaOf(
  { coarse: { width, height }, pxPerMm, asSeen, sizeAsSeen }: Laid,
  glare: Glare,
  comparedWith: number,
  trust: Trust,
): Present {
  const mask = asSeen({ width, height, data: Float32Array.from(glare.mask) });
  const cells = Uint8Array.from(mask.data);
  const marginCells = marginPx({ coarse: { width, height }, pxPerMm });
  const reflections = toldShines({ light: asSeen(glare.added), mask: cells, marginCells });
  const note = [shineInWords(reflections), trust.note].filter((words) => words).join(" ");
  return {
    name: "glareAreaPercent",
    value: glare.percent,
    reliability: trust.reliability,
    bound: "lower",
    ...(note && { note }),
    detail: {
      of: "picture",
      comparedWith,
      reflections,
      places: boxesOf(cells, mask.width, mask.height, sizeAsSeen).slice(0, MOST_PLACES),
    },
    area: [markedArea("picture", cells, mask.width, mask.height)],
  };
}

type Trust = Pick<Present, "reliability" | "note">;

/** With one other capture only, what is brighter here may as well be darker there. */
function trustIn(glare: Glare, others: readonly Glare[]): Trust {
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
