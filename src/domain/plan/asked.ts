import type { AimLimit } from "../aim/aim.ts";
import { halfSamplingCyPerMm } from "./sampling.ts";

/** What a purpose asks that a plan can tell beforehand, from the limits of its aim; null where the aim says nothing of it. */
export type Asked = {
  /** in pixels per inch of the print: what must be, and what serves fully */
  readonly leastPpi: number;
  readonly aimedPpi: number;
  /** in cycles per mm of the print, where half the contrast is to be left */
  readonly detail: { readonly atCyPerMm: number; readonly isRequired: boolean };
  /** lightness over a plain field, standard deviation over mean in percent: what is allowed, and where it counts for nothing */
  readonly evenness: { readonly mostPercent: number | null; readonly worthlessPercent: number | null };
  readonly bits: Wanted | null;
  /** 1 for a file that keeps every value */
  readonly lossless: Wanted | null;
};

type Wanted = { readonly least: number | null; readonly best: number };

/** Share of half the sampling, where an aim says neither a share nor a frequency (36 CFR 1236.50, table 2: SFR50 above 40 %). */
const USUAL_SHARE = 0.4;
/** Sampling that serves fully, where an aim asks for none (own figure: that of a print looked at by eye). */
const USUAL_PPI = 300;

export function askedOf(limits: readonly AimLimit[]): Asked {
  const of = (measure: string) => limits.find((limit) => limit.measure === measure) ?? null;
  const sampling = of("samplingPpi");
  const leastPpi = sampling?.requiredAtLeast ?? sampling?.lowest ?? 0;
  const aimedPpi = Math.max(leastPpi, sampling?.best ?? USUAL_PPI);
  const [field, border] = [of("lightnessUniformityPercent"), of("borderLightnessSpreadPercent")];
  const most = [field, border].flatMap((limit) => limit?.requiredAtMost ?? []);
  return {
    leastPpi,
    aimedPpi,
    detail: detailOf(of("targetSfr50SharePercent"), of("sfr50CyPerMm"), halfSamplingCyPerMm(aimedPpi)),
    evenness: { mostPercent: most.length === 0 ? null : Math.min(...most), worthlessPercent: border?.highest ?? null },
    bits: wanted(of("effectiveBitDepth")),
    lossless: wanted(of("lossless")),
  };
}

/** A set-up is planned before a print is captured, so what a target is to show comes first. */
function detailOf(share: AimLimit | null, frequency: AimLimit | null, halfSampling: number): Asked["detail"] {
  if (share?.requiredAtLeast != null) return { atCyPerMm: (share.requiredAtLeast / 100) * halfSampling, isRequired: true };
  if (frequency?.requiredAtLeast != null) return { atCyPerMm: frequency.requiredAtLeast, isRequired: true };
  return { atCyPerMm: frequency?.best ?? USUAL_SHARE * halfSampling, isRequired: false };
}

const wanted = (limit: AimLimit | null): Wanted | null => limit && { least: limit.requiredAtLeast, best: limit.best };
