import { type BlurBetween, blurBetween, levelsOf } from "./blur-between.ts";
import { asLightness, isExact } from "./corroborated-detail.ts";
import { joined, spectraByTile, type TileSpectra } from "./cross-spectra.ts";
import type { Place } from "./fine-source.ts";
import { homographyFromMm, inverse, project } from "./homography.ts";
import type { Fine, Laid } from "./lay-finely.ts";
import { isSeen, LEAST_VARIANCE_SHARE, VARIANCE_AT_ONE } from "./movement.ts";
import type { Quad } from "./picture.ts";
import type { Present, Reading } from "./reading.ts";
import { median } from "./robust.ts";
import { BOND_IN_WORDS, type Shared, sharedBy } from "./shared-noise.ts";
import { termsAt } from "./smooth-surface.ts";
import { softArea } from "./soft-area.ts";

/**
 * Fall-off of sharpness by comparison: focusFalloffPercent and focusFalloffDegrees as focus.ts defines them. What a picture shows is
 * the same in all its captures, so that tile by tile (128 px of the fine planes, half overlapped) it drops out of the ratio of their
 * fine-detail energy: the logarithm of what a capture keeps of a pattern, its own contrast aside, falls by 2 π² f² s² through a blur of
 * variance s², so that its slope over f² gives by how much the variances of captures differ there. Over the tiles a smooth surface.
 *
 * Three captures or more that share no noise: what a capture keeps by |S_AB| |S_AC| / |S_BC| (corroborated-detail.ts), which noise does not
 * reach; a capture's own fall-off is what its surface has more than the middle one of all: firm at most. Two: by their own power,
 * noise taken off; the difference may be of either, and both get it, opposite ways: weak. Either way "at least": what all captures have in
 * common is not in it. How sharp each is on the whole is known from the edges of the print in one of them at least (known-blur.ts).
 *
 * Absent where fine detail of the captures could not be followed, where too few tiles show it, and where no edge was read in any.
 * Sources: J. E. Gray, D. W. Allan (1974, see corroborated-detail.ts); a Gaussian's response is exp(-2 π² f² s²); the rest own.
 */
export function focusTogether(laid: readonly Laid[]): Reading[][] {
  const seen = laid.flatMap(({ captureId, fine, grid }) => (fine && isExact(fine, fine) ? [{ captureId, fine, blur: grid.blur }] : []));
  const fines = seen.map(({ fine }) => fine);
  const tiles = fines.length < 2 ? [] : spectraByTile(fines.map(asLightness));
  if (tiles.length < FEWEST_TILES)
    return laid.map((each) =>
      none(each.notFine ?? (each.fine && !isExact(each.fine, each.fine) ? NOT_EXACT : fines.length < 2 ? TOO_FEW : TOO_FEW_TILES)),
    );
  const whole = tiles.slice(1).reduce<Parameters<typeof joined>[0][0]>((sum, tile) => joined([sum, tile]), tiles[0] as TileSpectra);
  const shared = sharedBy(fines, whole);
  const witnesses = apart(fines.length, shared);
  const found = witnesses.length < 2 ? null : blurBetween(tiles, fines, witnesses);
  const levels =
    found &&
    levelsOf(
      found,
      seen.map(({ blur }) => blur?.varianceMm2 ?? null),
    );
  const compared = witnesses.map((at) => laid.find(({ captureId }) => captureId === seen[at]?.captureId) as Laid);
  return laid.map((each) => {
    const index = seen.findIndex(({ captureId }) => captureId === each.captureId);
    if (index < 0) return none(each.notFine ?? NOT_EXACT);
    const bond = [...fines.keys()].map((other) => (other === index ? null : shared(index, other))).find((one) => one !== null);
    if (witnesses.length < 2 || !witnesses.includes(index)) return none(bond ? BOND_IN_WORDS[bond] : TOO_FEW);
    if (!found) return none(TOO_FEW_TILES);
    return levels ? readingsOf(witnesses.indexOf(index), found, levels, compared) : none(NO_LEVEL);
  });
}

export const FOCUS_TOGETHER = ["focusFalloffPercent", "focusFalloffDegrees"] as const;

const FEWEST_TILES = 12;
/** Drawn captures without any fall-off were read within this share of their blur, besides the scatter of their tiles. */
const WITHIN_SHARE = 0.03;
const FIRM_SPREAD = 0.05;
const FAIR_SPREAD = 0.08;
/** The softest tiles show too little to be read: where more are missing, a strong fall-off is told too small. */
const LEAST_READ = 0.8;
const MOST_SPREAD = 0.15;
const TOO_FEW = "no other capture could be followed in fine detail; a second and third capture would tell";
const NOT_EXACT = "it could not be laid on the others exactly enough, so that its sharpness cannot be told from how it lies";
const TOO_FEW_TILES = "too little of the picture shows fine detail in all captures to compare how it falls off";
const SCATTERS = "what the captures show differs too much from place to place to tell how their sharpness falls off";
const NO_LEVEL = "the edges of the print could not be read in any of the captures, so that a fall-off has no measure to be a share of";
const OF_TWO = "By so much the sharpness of both captures differs; which of them falls off, a third would tell.";
const OF_MORE = "A fall-off that all captures have in common is not in it.";

const none = (reason: string): Reading[] => FOCUS_TOGETHER.map((name) => ({ name, absent: reason }));

/** Captures none of which shares its noise with another one: copies, and shots of one set-up, are one witness. */
function apart(count: number, shared: Shared): number[] {
  const kept: number[] = [];
  for (let index = 0; index < count; index++) if (!kept.some((other) => shared(index, other))) kept.push(index);
  return kept;
}

type Told = { readonly own: readonly number[]; readonly matrix: readonly number[]; readonly value: number; readonly spread: number };

/** Of one capture: what its surface has more than the middle one, of two than the other, and the share that it loses by that. */
function toldOf(index: number, { terms, covariance }: BlurBetween, level: number, lie: Lie): Told {
  const own = (terms[index] as readonly number[]).map((term, at) => (at === 0 ? level : term - middleOf(terms, index, at)));
  const matrix = (covariance[index] as readonly number[]).map((value, at) => value + median(covariance.map((each) => each[at] as number)));
  const value = falloffOf(own, lie).share;
  return {
    own,
    matrix,
    value,
    spread: Math.hypot(
      spreadOf(own, matrix, (each) => falloffOf(each, lie).share),
      WITHIN_SHARE,
    ),
  };
}

const middleOf = (values: readonly (readonly number[])[], index: number, at: number) =>
  values.length === 2 ? (values[1 - index]?.[at] as number) : median(values.map((each) => each[at] as number));

/**
 * Of two captures the one that falls off is softer on the whole, so that its share is the lower of both: it is told of both, since
 * which it is, is not known.
 */
function readingsOf(index: number, between: BlurBetween, levels: readonly number[], laid: readonly Laid[]): Reading[] {
  const count = between.of.length;
  const told = between.of.map((_, at) => toldOf(at, between, levels[at] as number, lieOf(laid[at] as Laid)));
  const { own, matrix } = told[index] as Told;
  const { value, spread } = count === 2 ? told.reduce((least, each) => (each.value < least.value ? each : least)) : (told[index] as Told);
  const lie = lieOf(laid[index] as Laid);
  const level = levels[index] as number;
  const { tiles } = between;
  const differs = tiles.map(
    ({ variances }) => (variances[index] as number) - (count === 2 ? (variances[1 - index] as number) : median(variances)),
  );
  const centre = median(differs);
  const isWhole = between.readShare >= LEAST_READ;
  const reliability: Present["reliability"] =
    count === 2 || spread > FAIR_SPREAD ? "weak" : isWhole && spread <= FIRM_SPREAD ? "firm" : "fair";
  const isClear = isSeen({ value, spread });
  if (!isClear && spread > MOST_SPREAD) return none(SCATTERS);
  const percent: Present = {
    name: "focusFalloffPercent",
    value: 100 * value,
    spread: 100 * spread,
    bound: "lower",
    reliability,
    note: count === 2 ? OF_TWO : OF_MORE,
    ...(isClear && { area: softArea((u, v) => surfaceAt(own, lie, u, v)) }),
    detail: {
      kind: isClear ? "tilt" : "even",
      from: "comparison",
      comparedWith: count - 1,
      places: [],
      tiles: tiles.map(({ u, v }, at) => {
        const here = level + (differs[at] as number) - centre;
        const on = sheetPlace(lie, u, v);
        const sfr50CyPerMm = Math.sqrt(VARIANCE_AT_ONE / Math.max(LEAST_SHOWN * level, here));
        return { across: rounded((on.u + 1) / 2), down: rounded((on.v + 1) / 2), sfr50CyPerMm: rounded(sfr50CyPerMm) };
      }),
    },
  };
  if (!isClear)
    return [
      percent,
      { name: "focusFalloffDegrees", absent: "sharpness falls off too little against the other captures to have a direction" },
    ];
  const degrees = falloffOf(own, lie).degrees;
  const turned = (each: readonly number[]) => ((falloffOf(each, lie).degrees - degrees + 540) % 360) - 180;
  return [
    percent,
    {
      name: "focusFalloffDegrees",
      value: (degrees + 360) % 360,
      spread: spreadOf(own, matrix, turned),
      reliability,
      note: percent.note as string,
    },
  ];
}

const LEAST_SHOWN = 0.25;
const rounded = (value: number) => Number(value.toPrecision(4));

/** How the sheet, as the capture's own frame shows it, lies in the planes: both from -1 to 1 along each side, straight between. */
type Lie = {
  /** sheet = (a u + b v + c, d u + e v + f) */
  readonly map: readonly [number, number, number, number, number, number];
  /** half the planes' sides, mm */
  readonly halfMm: readonly [number, number];
};

/** By three places of the plane; where the sheet is not known, the picture stands for it. */
function lieOf({ fine, grid }: Laid): Lie {
  const { plane, pxPerMm, placeOf } = fine as Fine;
  const back = inverse(homographyFromMm(1, 1, (grid.blur?.sheet ?? grid.quad) as Quad));
  const into: Place = { x: 0, y: 0 };
  const at = (u: number, v: number) => {
    placeOf(((u + 1) / 2) * plane.width - 0.5, ((v + 1) / 2) * plane.height - 0.5, into);
    const { x, y } = project(back, into.x, into.y);
    return { x: 2 * x - 1, y: 2 * y - 1 };
  };
  const [left, right, top, bottom] = [at(-0.8, 0), at(0.8, 0), at(0, -0.8), at(0, 0.8)];
  const [a, d] = [(right.x - left.x) / 1.6, (right.y - left.y) / 1.6];
  const [b, e] = [(bottom.x - top.x) / 1.6, (bottom.y - top.y) / 1.6];
  const [c, f] = [(left.x + right.x + top.x + bottom.x) / 4, (left.y + right.y + top.y + bottom.y) / 4];
  return { map: [a, b, c, d, e, f], halfMm: [plane.width / pxPerMm / 2, plane.height / pxPerMm / 2] };
}

const sheetPlace = ({ map: [a, b, c, d, e, f] }: Lie, u: number, v: number) => ({ u: a * u + b * v + c, v: d * u + e * v + f });

/** A surface over the planes, at a place of the sheet. */
function surfaceAt(terms: readonly number[], { map: [a, b, c, d, e, f] }: Lie, across: number, down: number): number {
  const determinant = a * e - b * d;
  const [x, y] = [across - c, down - f];
  return valueAt(terms, (e * x - b * y) / determinant, (a * y - d * x) / determinant);
}

const valueAt = (terms: readonly number[], u: number, v: number) => termsAt(u, v).reduce((sum, of, at) => sum + of * (terms[at] ?? 0), 0);

/** As focus.ts defines it, of a surface over the planes: along its slope at the middle of the sheet, from rim to rim of the sheet. */
function falloffOf(terms: readonly number[], { map: [a, b, c, d, e, f], halfMm: [halfWidth, halfHeight] }: Lie) {
  const determinant = a * e - b * d;
  const [u0, v0] = [(b * f - e * c) / determinant, (d * c - a * f) / determinant];
  const [, tu = 0, tv = 0, tuv = 0, tuu = 0, tvv = 0] = terms;
  const slope = { x: (tu + tuv * v0 + 2 * tuu * u0) / halfWidth, y: (tv + tuv * u0 + 2 * tvv * v0) / halfHeight };
  const length = Math.hypot(slope.x, slope.y);
  if (length === 0) return { share: 0, degrees: 0 };
  const [du, dv] = [slope.x / length / halfWidth, slope.y / length / halfHeight];
  const [across, down] = [a * du + b * dv, d * du + e * dv];
  const reach = 1 / Math.max(Math.abs(across), Math.abs(down));
  const varianceAt = (by: number) => valueAt(terms, u0 + by * du, v0 + by * dv);
  const [sharp, soft] = [varianceAt(-reach), varianceAt(reach)];
  const share = soft > 0 ? 1 - Math.sqrt(Math.min(1, Math.max(LEAST_VARIANCE_SHARE, sharp / soft))) : 0;
  const ofSheet = { x: across / Math.hypot(a / halfWidth, b / halfHeight), y: down / Math.hypot(d / halfWidth, e / halfHeight) };
  return { share, degrees: (180 / Math.PI) * Math.atan2(ofSheet.y, ofSheet.x) };
}

/** Square root of gᵀ C g, with g the slopes of a function of the terms (JCGM 100:2008, 5.2.2). */
function spreadOf(terms: readonly number[], covariance: readonly number[], of: (terms: readonly number[]) => number): number {
  const step = 1e-4 * Math.abs(terms[0] as number);
  const slopes = terms.map((_, index) => {
    const moved = (by: number) => of(terms.map((value, at) => (at === index ? value + by : value)));
    return (moved(step) - moved(-step)) / (2 * step);
  });
  let sum = 0;
  for (const [i, one] of slopes.entries())
    for (const [j, other] of slopes.entries()) sum += one * other * (covariance[i * slopes.length + j] as number);
  return Math.sqrt(Math.max(0, sum));
}
