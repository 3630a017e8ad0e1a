import type { Laid } from "../laying/lay-finely.ts";
import { areaOf as areaOfFigure, cornersOf } from "../lines.ts";
import { markedArea } from "../marked-area.ts";
import type { Quad } from "../picture.ts";
import { blurred, type GridPlane } from "../planes/grid-plane.ts";
import { boxesOf, grown } from "../planes/mask.ts";
import type { Present, Reading } from "../reading.ts";
import { type DarkInVeil, darkInVeils, isSureDark } from "./dark-in-veil.ts";
import { type Glare, glareAmong, type NoGlare } from "./glare-among.ts";
import { shineInWords, type ToldShine, toldShines } from "./shine-kind.ts";
import type { SeenShine } from "./shine-shape.ts";

/**
 * Glare by comparison: share of the print (sheet with its border), in percent, that shines in the picture of one capture and not in the others of the same
 * print, and the largest lightness that it adds (glarePeakDeltaL, L*). Their tones are mapped onto each other, and what is left brighter is glare (see glare-among.ts).
 * What was mirrored is told by the shape of the light that is added (shine-kind.ts), as `reflections` of the area's detail and in its note, and a dark
 * shape before it by the light that is missing there (dark-in-veil.ts); such a place is left out, since the other captures do not shine for it.
 *
 * With two captures a brighter place may be glare in one or shadow in the other: the reading is fair. Which of the two shines where much of the picture
 * does is told by the print's own blacks (plain-places.ts), and absent for both where they do not tell. With three or more it is firm, but fair where another
 * shines at the same places, so that only one is left to compare with there. Either way "at least": border and rim of the picture are not compared, shine
 * that all captures share is not seen, and of shine broader than a third of the picture only the brightest part is.
 *
 * Source: common practice, no source.
 */
export function glareTogether(laid: readonly Laid[]): Reading[][] {
  const { glares, darks } = shiningIn(laid);
  if (typeof glares === "string") return laid.map(() => GLARE_TOGETHER.map((name) => ({ name, absent: WHY_NOT[glares] })));
  return glares.map((glare, index) => {
    const others = glares.filter((other) => other !== glare);
    const trust = trustIn(glare, others);
    const peak = { name: "glarePeakDeltaL", value: glare.worstLightness, bound: "lower", detail: { comparedWith: others.length } } as const;
    const note = noteOf(trust.note, isFaint(glare) && TOO_FAINT);
    return [areaOf(laid, index, glare, darks[index] ?? null, trust), { ...peak, reliability: trust.reliability, ...(note && { note }) }];
  });
}

type Shining = { readonly glares: Glare[] | NoGlare; readonly darks: readonly (DarkInVeil | null)[] };

/** Looked for once for all who ask. */
const SEEN = new WeakMap<readonly Laid[], Shining>();

function shiningIn(laid: readonly Laid[]): Shining {
  const before = SEEN.get(laid);
  if (before) return before;
  const smooth = laid.map(({ coarse }) => blurred(coarse, SMOOTHING_PX));
  const margin = marginPx(laid[0] as Laid);
  const darks = darkInVeils(smooth, margin);
  const glares = glareAmong(
    smooth.map((plane, index) => without(plane, darks[index] ?? null)),
    margin,
  );
  const seen = { glares, darks };
  SEEN.set(laid, seen);
  return seen;
}

/** 1 where any of the captures is told to shine, and near it; null where that is not told. */
export function shinesInAny(laid: readonly Laid[]): Uint8Array | null {
  const { glares } = shiningIn(laid);
  const [first] = laid;
  if (!first || typeof glares === "string") return null;
  const { width, height } = first.coarse;
  const shines = new Uint8Array(width * height);
  for (const { mask } of glares) for (let at = 0; at < mask.length; at++) if (mask[at] === 1) shines[at] = 1;
  return grown(shines, width, height, KEEP_AWAY_PX);
}

export const GLARE_TOGETHER = ["glareAreaPercent", "glarePeakDeltaL"] as const;

const WHY_NOT: Readonly<Record<NoGlare, string>> = {
  "too little seen": "too little of the picture is seen, and not clipped to white, in all captures",
  "not told":
    "the two captures differ as when one of them shines or is shaded over a part of the picture, and which of them it is does not show; a third capture with the print turned by 90° under the same light, or with the light moved, would tell",
};

const SMOOTHING_PX = 2;
/** Left out along the rim, where the smallest misfit of strong edges looks like glare. */
const MARGIN_MM = 2;
const MARGIN_SHARE = 0.025;
const MOST_PLACES = 12;
/** Round a dark shape its soft rim is left out too: 1.5 mm. */
const KEEP_AWAY_PX = 6;
/** With a larger share of what shines told by one other capture alone, it is as sure as with two captures. */
const MOST_BY_ONE = 0.25;
/** Share of its sheet that the picture takes at the least in the formats that the program knows (print/formats, which a test holds it to). */
export const LEAST_SHARE = 0.55;
const SHARE_NOT_KNOWN =
  "How much of its sheet the picture takes is not known, so the share is told as if it took 55 % of it, as in the smallest pictures of known formats; with the sizes of sheet and picture entered, or the whole sheet in the frame, it is told exactly.";
/** Glare of this share in one of two captures makes tones of the other doubtful. */
const BROAD_PERCENT = 10;

function marginPx({ coarse, pxPerMm }: Laid): number {
  return Math.ceil(pxPerMm === null ? MARGIN_SHARE * Math.min(coarse.width, coarse.height) : MARGIN_MM * pxPerMm);
}

/** Where light of a veil is missing, nothing shines in the others for that. */
function without(plane: GridPlane, dark: DarkInVeil | null): GridPlane {
  if (!dark) return plane;
  const round = grown(dark.mask, plane.width, plane.height, KEEP_AWAY_PX);
  return { ...plane, data: plane.data.map((value, at) => (round[at] === 1 ? Number.NaN : value)) };
}

function areaOf(laid: readonly Laid[], index: number, glare: Glare, dark: DarkInVeil | null, trust: Trust): Present {
  const one = laid[index] as Laid;
  const share = shareOfSheet(laid);
  const { width, height } = one.coarse;
  const asItLies = (mask: Uint8Array) => one.asSeen({ width, height, data: Float32Array.from(mask) });
  const mask = asItLies(glare.mask);
  const cells = Uint8Array.from(mask.data);
  const marginCells = marginPx(one);
  const reflections = [
    ...(dark
      ? [darkShape({ light: one.asSeen(dark.missing), mask: Uint8Array.from(asItLies(dark.mask).data), marginCells }, dark)]
      : []
    ).flat(),
    ...toldShines({ light: one.asSeen(glare.added), mask: cells, marginCells }),
  ];
  const isGuessed = !share.isKnown && glare.leastPercent > 0;
  const note = noteOf(shineInWords(reflections), trust.note, isFaint(glare) && TOO_FAINT, isGuessed && SHARE_NOT_KNOWN);
  return {
    name: "glareAreaPercent",
    value: glare.leastPercent * share.least,
    reliability: trust.reliability,
    bound: "lower",
    ...(note && { note }),
    detail: {
      of: "picture",
      comparedWith: laid.length - 1,
      reflections,
      places: boxesOf(cells, mask.width, mask.height, one.sizeAsSeen).slice(0, MOST_PLACES),
    },
    area: [markedArea("picture", cells, mask.width, mask.height)],
  };
}

/**
 * Of the sheet that the planes show, by the capture that all others are laid on. Where it is not known, the least that the picture of a known format takes,
 * or less where what is seen of the sheet shows less: of a small picture on a wide mount even that may be too much, and the note says so.
 */
function shareOfSheet(laid: readonly Laid[]): { readonly least: number; readonly isKnown: boolean } {
  const { quad, blur, shareOfSheet: share } = (laid.find(({ isReference }) => isReference) ?? (laid[0] as Laid)).grid;
  if (share !== undefined) return { least: share, isKnown: true };
  const ofSeen = quad && blur ? areaOfQuad(quad) / areaOfQuad(blur.sheet) : 1;
  return { least: Math.min(LEAST_SHARE, ofSeen), isKnown: false };
}

const areaOfQuad = (quad: Quad): number => Math.abs(areaOfFigure(cornersOf(quad)));

/** The dark shape in the veil, told like what shines. */
const darkShape = (seen: SeenShine, dark: DarkInVeil): ToldShine[] =>
  toldShines(seen)
    .slice(0, 1)
    .map((shape) => ({ ...shape, looksLike: "dark shape in a veil", sure: isSureDark(dark) ? "likely" : "possible" }));

const noteOf = (...parts: readonly (string | false | null | undefined)[]): string => parts.filter((words) => words).join(" ");

/** Marked, but nowhere so much above the limit that it surely shines there. */
const isFaint = ({ percent, leastPercent }: Glare): boolean => percent > 0 && leastPercent === 0;
const TOO_FAINT = "What is marked is seen to shine, but is too faint or too narrow to be counted in the share.";

type Trust = Pick<Present, "reliability" | "note">;

/** With one other capture only, what is brighter here may as well be darker there. */
function trustIn(glare: Glare, others: readonly Glare[]): Trust {
  const [other, third] = others;
  if (!other) return { reliability: "fair" };
  if (third && glare.byOneShare <= MOST_BY_ONE) return { reliability: "firm" };
  if (third)
    return {
      reliability: "fair",
      note: "Another capture shines at the same places, so that only one tells there, which may be shaded; one more capture would tell.",
    };
  if (glare.percent > 0 && other.percent > BROAD_PERCENT && other.percent > glare.percent) {
    return {
      reliability: "weak",
      note: "The only other capture shines over much of the picture, which upsets the comparison; a third would tell.",
    };
  }
  if (glare.percent === 0) return { reliability: "fair" };
  return { reliability: "fair", note: "With two captures, glare here cannot be told from shadow in the other; a third would tell." };
}
