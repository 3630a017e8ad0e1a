import { BOND_IN_WORDS, type Shared, sharedBy } from "../file/shared-noise.ts";
import type { Laid } from "../laying/lay-finely.ts";
import { joined, spectraByTile, type TileSpectra } from "../numbers/cross-spectra.ts";
import { median } from "../numbers/robust.ts";
import type { Present, Reading } from "../reading.ts";
import { type BesideMiddle, besideMiddle, lessMiddle, spreadOf } from "./beside-middle.ts";
import { type BlurBetween, blurBetween, levelsOf } from "./blur-between.ts";
import { asLightness, isExact } from "./corroborated-detail.ts";
import { falloffOf, lieOf, sheetPlace, surfaceAt } from "./falloff-on-sheet.ts";
import { isSeen, VARIANCE_AT_ONE } from "./movement.ts";
import { softArea } from "./soft-area.ts";

/**
 * Fall-off of sharpness by comparison: focusFalloffPercent and focusFalloffDegrees as focus.ts defines them. What a picture shows is
 * the same in all its captures, so that tile by tile (128 px of the fine planes, half overlapped) it drops out of the ratio of their
 * fine-detail energy: the logarithm of what a capture keeps of a pattern, its own contrast aside, falls by 2 π² f² s² through a blur of
 * variance s², so that its slope over f² gives by how much the variances of captures differ there. Over the tiles a smooth surface.
 *
 * Three captures or more that share no noise: what a capture keeps by |S_AB| |S_AC| / |S_BC| (corroborated-detail.ts), which noise does not
 * reach; a capture's own fall-off is what its surface has more than the middle one of all: fair at most. Two: by their own power,
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
/**
 * Besides the scatter of the tiles: what the content of the picture adds, whose tiles are no chance sample. On drawn captures of three
 * contents, of which one lost 0 to 50 %, three together were misread by 6 % of the blur (root of the mean square, 13 at most).
 */
const WITHIN_SHARE = 0.06;
const FAIR_SPREAD = 0.1;
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

/**
 * Of two captures the one that falls off is softer on the whole, so that its share is the lower of both: it is told of both, since
 * which it is, is not known.
 */
function readingsOf(index: number, between: BlurBetween, levels: readonly number[], laid: readonly Laid[]): Reading[] {
  const count = between.of.length;
  const told = between.of.map((_, at) => besideMiddle(at, between, levels[at] as number, lieOf(laid[at] as Laid)));
  const { own, covariance } = told[index] as BesideMiddle;
  const { share: value, spread: byTiles } =
    count === 2 ? told.reduce((least, each) => (each.share < least.share ? each : least)) : (told[index] as BesideMiddle);
  const spread = Math.hypot(byTiles, WITHIN_SHARE);
  const lie = lieOf(laid[index] as Laid);
  const level = levels[index] as number;
  const { tiles } = between;
  const differs = tiles.map(({ variances }) => lessMiddle(variances, index));
  const centre = median(differs);
  const reliability: Present["reliability"] = count === 2 || spread > FAIR_SPREAD ? "weak" : "fair";
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
      spread: spreadOf(own, covariance, turned),
      reliability,
      note: percent.note as string,
    },
  ];
}

const LEAST_SHOWN = 0.25;
const rounded = (value: number) => Number(value.toPrecision(4));
