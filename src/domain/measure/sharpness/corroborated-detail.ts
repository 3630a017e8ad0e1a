import { savedAgain, savedAgainAbsent } from "../file/saved-again.ts";
import { BOND_IN_WORDS, type Shared, sharedBy } from "../file/shared-noise.ts";
import type { Fine, Laid } from "../laying/lay-finely.ts";
import { type CrossSpectra, crossSpectra, joined } from "../numbers/cross-spectra.ts";
import { median } from "../numbers/robust.ts";
import { evenlyWithin } from "../numbers/standard-uncertainty.ts";
import type { Present, Reading } from "../reading.ts";

/**
 * Corroborated detail, in cycles per mm of the print: up to where a capture shows more of what the others show too (signal) than
 * of its own (noise, sharpening, compression). Read on L*-like values (cube root of linear light), registered to less than 0.3 px
 * of the coarser capture, from cross spectra (cross-spectra.ts).
 *
 * Three captures or more, by the three-cornered hat: signal of A = |S_AB| |S_AC| / |S_BC|, noise = S_AA - signal; the reading is the first
 * frequency above 1 cy/mm where both are equal (median of three bands; straight between bands), "at least" where they stay apart as far as can be
 * seen. Contrast against another capture R, not biased by noise: |S_AB| / |S_RB|.
 *
 * Two captures: the frequency where the coherence |S_AB|² / (S_AA S_BB) falls to a half. Both show more signal than noise up to there, so
 * "at least", and fair at most.
 *
 * A picture that holds too few tiles of 256 px is read in tiles of 128 px: fair at most, with twice the spread.
 *
 * What the picture does not hold no capture shows: the reading ranks captures of one print, and says little of a device.
 * Absent where captures share their noise (shared-noise.ts), and where they cannot be registered.
 * Sources: J. E. Gray, D. W. Allan, "A Method for Estimating the Frequency Stability of an Individual Oscillator", 1974
 * (three-cornered hat); its use on cross spectra of pictures: own.
 */
export function corroboratedDetail(laid: readonly Laid[]): Reading[][] {
  const seen = laid.flatMap(({ captureId, fine }) => (fine ? [{ captureId, fine }] : []));
  const halves = seen.length < 2 ? null : crossSpectra(seen.map(({ fine }) => asLightness(fine)));
  if (!halves) return laid.map((each) => noneOf(each.notFine ?? tooFew(seen.length)));
  const whole = joined(halves);
  const fines = seen.map(({ fine }) => fine);
  const shared = sharedBy(fines, whole);
  const sights = fines.map((_, index) => sightOf(index, whole, fines, shared));
  const limits = halves.map((half) => fines.map((_, index) => sightOf(index, half, fines, shared)?.limit.value ?? Number.NaN));
  const best = bestOf(sights);
  return laid.map((each) => {
    const index = seen.findIndex(({ captureId }) => captureId === each.captureId);
    const sight = sights[index];
    if (index < 0) return noneOf(each.notFine ?? tooFew(seen.length));
    const again = savedAgain(
      index,
      seen.map(({ captureId }) => captureId),
      shared,
    );
    if (!sight) return [absent(whyNone(index, fines, shared)), again];
    // half the difference of both halves is the standard deviation of their mean
    const chance = Math.abs((limits[0]?.[index] ?? Number.NaN) - (limits[1]?.[index] ?? Number.NaN)) / 2;
    return [
      readingOf(sight, each.fine as Fine, chance, whole.tilePx, contrastAgainst(index, best, whole, fines, shared), seen[best]?.captureId),
      again,
    ];
  });
}

export const DETAIL_TOGETHER = ["detailCyPerMm", "savedAgainCount"] as const;

/** What one capture alone can say of it. */
export const detailAlone = (): Reading[] => [
  savedAgainAbsent("one capture alone cannot tell; it is compared with each other capture of its print"),
  absent("one capture alone cannot tell detail from noise and sharpening; a second, and better a third, with the print turned, would tell"),
];

const MOST_RESIDUAL_OWN_PX = 0.3;
/** Drawn captures were read within this, with tiles of 256 px; the bands of smaller ones are broader. */
const WITHIN_CY_PER_MM = 0.3;
const WHOLE_TILE_PX = 256;
const FROM_CY_PER_MM = 1;
/** Cross spectra count where the coherence is this many times what chance makes it. */
const TIMES_CHANCE = 2;
/** Where contrast is set to 1: broad patterns that every capture shows whole. */
const BROAD = { from: 0.3, to: 1 } as const;

const absent = (reason: string): Reading => ({ name: "detailCyPerMm", absent: reason });
const noneOf = (reason: string): Reading[] => [absent(reason), savedAgainAbsent(reason)];
const tooFew = (count: number) =>
  count < 2
    ? "no other capture could be followed in fine detail; a second and third capture, with the print turned, would tell"
    : "the picture holds too few pixels, or too little of it is seen in all captures, to compare their fine detail";

/** Cube root of linear light, in which noise and detail of dark and light places weigh alike. */
export const asLightness = ({ plane: { width, height, data } }: Fine) => ({
  width,
  height,
  data: data.map((value) => Math.cbrt(Math.max(0, value))),
});

/** What one capture shows, band by band. */
type Sight = {
  readonly of: "signal" | "coherence";
  readonly cyPerMm: readonly number[];
  /** share of signal in what is seen, or coherence, 0 to 1 */
  readonly share: readonly number[];
  readonly limit: { readonly value: number; readonly bound?: "lower" | "upper" };
  readonly comparedWith: number;
};

const isUsable = (fines: readonly Fine[], shared: Shared, i: number, j: number) =>
  i !== j && !shared(i, j) && isExact(fines[i] as Fine, fines[j] as Fine);

/** Both lie exactly enough for the coarser of the two. */
export function isExact(one: Fine, other: Fine): boolean {
  const coarser = Math.min(one.ownPxPerMm, other.ownPxPerMm);
  return [one, other].every(({ residualPx, pxPerMm }) => (residualPx / pxPerMm) * coarser < MOST_RESIDUAL_OWN_PX);
}

function partnersOf(index: number, fines: readonly Fine[], shared: Shared): number[] {
  return [...fines.keys()].filter((other) => isUsable(fines, shared, index, other));
}

function pairsOf(partners: readonly number[], fines: readonly Fine[], shared: Shared): [number, number][] {
  return partners.flatMap((j, at) =>
    partners.slice(at + 1).flatMap((k): [number, number][] => (isUsable(fines, shared, j, k) ? [[j, k]] : [])),
  );
}

function sightOf(index: number, spectra: CrossSpectra, fines: readonly Fine[], shared: Shared): Sight | null {
  const partners = partnersOf(index, fines, shared);
  const pairs = pairsOf(partners, fines, shared);
  if (pairs.length > 0) return sightByThree(index, pairs, spectra, fines);
  const byTwo = partners.map((partner) => sightByTwo(index, partner, spectra, fines));
  return byTwo.reduce<Sight | null>((best, each) => (best && best.limit.value >= each.limit.value ? best : each), null);
}

/** Last band that all of some captures can show, and in which their products stand above chance. */
function sightByThree(index: number, pairs: readonly (readonly [number, number])[], spectra: CrossSpectra, fines: readonly Fine[]): Sight {
  const cyPerMm: number[] = [];
  const share: number[] = [];
  for (const band of bandsOf(spectra, [fines[index] as Fine])) {
    const signals = pairs.flatMap(([j, k]) => {
      const clear = [
        [index, j],
        [index, k],
        [j, k],
      ].every(
        ([one, other]) => isClear(spectra, one as number, other as number, band) && isBelowHalf(spectra, fines, other as number, band),
      );
      return clear ? [Math.abs((at(spectra, index, j, band) * at(spectra, index, k, band)) / at(spectra, j, k, band))] : [];
    });
    if (signals.length === 0) break;
    cyPerMm.push(frequencyOf(spectra, fines, band));
    share.push(Math.min(1, median(signals) / at(spectra, index, index, band)));
  }
  const comparedWith = new Set(pairs.flat()).size;
  return { of: "signal", cyPerMm, share, limit: limitOf(cyPerMm, share), comparedWith };
}

function sightByTwo(index: number, partner: number, spectra: CrossSpectra, fines: readonly Fine[]): Sight {
  const bands = bandsOf(spectra, [fines[index] as Fine, fines[partner] as Fine]);
  const cyPerMm = bands.map((band) => frequencyOf(spectra, fines, band));
  const share = bands.map((band) => coherence(spectra, index, partner, band));
  const { value } = limitOf(cyPerMm, share);
  return { of: "coherence", cyPerMm, share, limit: { value, bound: "lower" }, comparedWith: 1 };
}

const at = (spectra: CrossSpectra, i: number, j: number, band: number) => spectra.product(i, j)[band] as number;

const coherence = (spectra: CrossSpectra, i: number, j: number, band: number) =>
  at(spectra, i, j, band) ** 2 / (at(spectra, i, i, band) * at(spectra, j, j, band));

const isClear = (spectra: CrossSpectra, i: number, j: number, band: number) =>
  Math.sqrt(coherence(spectra, i, j, band)) > TIMES_CHANCE / Math.sqrt(spectra.independent[band] as number);

const frequencyOf = (spectra: CrossSpectra, [fine]: readonly Fine[], band: number) =>
  (spectra.cyclesPerPx[band] as number) * (fine as Fine).pxPerMm;

const isBelowHalf = (spectra: CrossSpectra, fines: readonly Fine[], index: number, band: number) =>
  frequencyOf(spectra, fines, band) < (fines[index] as Fine).ownPxPerMm / 2;

/** Bands below half the sampling of each capture; the lowest, where the window leaks, left out. */
function bandsOf(spectra: CrossSpectra, fines: readonly Fine[]): number[] {
  const bands = [...spectra.cyclesPerPx.keys()].slice(1);
  return bands.filter((band) => fines.every((_, index) => isBelowHalf(spectra, fines, index, band)));
}

/** First frequency above 1 cy/mm where a share, smoothed by the median of three, falls below a half. */
function limitOf(cyPerMm: readonly number[], share: readonly number[]): Sight["limit"] {
  const smooth = share.map((_, band) => median(share.slice(Math.max(0, band - 1), band + 2)));
  const first = cyPerMm.findIndex((f, band) => f > FROM_CY_PER_MM && (smooth[band] as number) < 0.5);
  if (first < 0) return { value: cyPerMm.at(-1) ?? 0, bound: "lower" };
  if (first === 0 || (cyPerMm[first - 1] as number) <= FROM_CY_PER_MM) return { value: FROM_CY_PER_MM, bound: "upper" };
  const [before, after] = [smooth[first - 1] as number, smooth[first] as number];
  const [from, to] = [cyPerMm[first - 1] as number, cyPerMm[first] as number];
  return { value: from + ((to - from) * (before - 0.5)) / (before - after) };
}

function bestOf(sights: readonly (Sight | null)[]): number {
  let best = -1;
  for (const [index, sight] of sights.entries()) {
    if (sight?.of === "signal" && sight.limit.value > (sights[best]?.limit.value ?? 0)) best = index;
  }
  return best;
}

type Contrast = { readonly cyPerMm: readonly number[]; readonly modulation: readonly number[] };

/** Contrast kept against the capture that shows most, by all third captures; null for that one itself, and where there is no third. */
function contrastAgainst(index: number, best: number, spectra: CrossSpectra, fines: readonly Fine[], shared: Shared): Contrast | null {
  if (best < 0 || best === index) return null;
  const thirds = partnersOf(index, fines, shared).filter((third) => third !== best && isUsable(fines, shared, third, best));
  if (thirds.length === 0) return null;
  const [one, other] = [fines[index] as Fine, fines[best] as Fine];
  const cyPerMm: number[] = [];
  const ratios: number[] = [];
  for (const band of bandsOf(spectra, [one, other])) {
    const clear = thirds.filter((third) => isClear(spectra, index, third, band) && isClear(spectra, best, third, band));
    if (clear.length === 0) break;
    const f = frequencyOf(spectra, fines, band);
    const sampling = other.transferAt(f) / one.transferAt(f);
    cyPerMm.push(f);
    ratios.push(sampling * median(clear.map((third) => Math.abs(at(spectra, index, third, band) / at(spectra, best, third, band)))));
  }
  const broad = ratios.filter((_, band) => (cyPerMm[band] as number) > BROAD.from && (cyPerMm[band] as number) < BROAD.to);
  if (broad.length === 0) return null;
  const whole = median(broad);
  return { cyPerMm, modulation: ratios.map((ratio) => ratio / whole) };
}

function readingOf(sight: Sight, fine: Fine, chance: number, tilePx: number, contrast: Contrast | null, best: number | undefined): Present {
  const { of, limit, comparedWith } = sight;
  return {
    name: "detailCyPerMm",
    value: limit.value,
    reliability: of === "signal" && tilePx === WHOLE_TILE_PX ? "firm" : "fair",
    spread: Math.max(evenlyWithin((WITHIN_CY_PER_MM * WHOLE_TILE_PX) / tilePx), Number.isNaN(chance) ? 0 : chance),
    ...(limit.bound && { bound: limit.bound }),
    note: noteOn(sight),
    detail: {
      comparedWith,
      registeredWithinMm: fine.residualPx / fine.pxPerMm,
      finestPossibleCyPerMm: fine.ownPxPerMm / 2,
      ...(contrast && { contrastAgainstCapture: best }),
      curves: [
        {
          label: of === "signal" ? "Share of detail in what is seen; at 50 % it equals the noise" : "Agreement with the other capture",
          cyPerMm: rounded(sight.cyPerMm),
          modulation: rounded(sight.share),
        },
        ...(contrast
          ? [
              {
                label: "Contrast kept, against the capture that shows most",
                cyPerMm: rounded(contrast.cyPerMm),
                modulation: rounded(contrast.modulation),
              },
            ]
          : []),
      ],
    },
  };
}

function noteOn({ of, limit }: Sight): string {
  if (of === "coherence") return "With two captures only what both show can be said; a third would tell how far each goes.";
  if (limit.bound === "lower") return "Detail stands above noise as far as it could be followed.";
  return "How far detail goes depends on what the picture holds: compare it between captures of this print only.";
}

function whyNone(index: number, fines: readonly Fine[], shared: Shared): string {
  const others = [...fines.keys()].filter((other) => other !== index);
  const bond = others.map((other) => shared(index, other)).find((each) => each !== null);
  return bond ? BOND_IN_WORDS[bond] : "it could not be laid on the others exactly enough, so that detail cannot be told from noise";
}

const rounded = (values: readonly number[]) => values.map((value) => Math.round(1000 * value) / 1000);
