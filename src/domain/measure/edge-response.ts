import { BINS_PER_PX } from "./edge-spread.ts";

/** What the step itself looks like. */
export type EdgeShape = {
  /** how far the bright side rises above its plateau and the dark side falls below its own; shares of the step */
  readonly overshoot: number;
  readonly undershoot: number;
  /** standard deviation of the averaged bright plateau, share of the step: how far an overshoot may be chance */
  readonly plateauSpread: number;
  /** largest change along one plateau, share of the step */
  readonly unevenness: number;
};

const FREQUENCY_STEP = 0.005;

/** Modulus of the windowed line spread's transform, 1 at frequency 0, corrected for the derivative filter. */
export function response(values: Float64Array, cosine: number): { frequencies: Float64Array; modulation: Float64Array } {
  const bins = values.length;
  const line = new Float64Array(bins);
  for (let bin = 1; bin < bins - 1; bin++) {
    const window = 0.54 + 0.46 * Math.cos((2 * Math.PI * (bin - (bins - 1) / 2)) / bins);
    line[bin] = (((values[bin + 1] as number) - (values[bin - 1] as number)) / 2) * window;
  }
  const total = line.reduce((sum, value) => sum + value, 0);
  const count = Math.round(1 / FREQUENCY_STEP) + 1;
  const frequencies = Float64Array.from({ length: count }, (_, k) => (k * FREQUENCY_STEP) / cosine);
  const modulation = frequencies.map((_, k) => {
    const perBin = (2 * Math.PI * k * FREQUENCY_STEP) / BINS_PER_PX;
    const [turnX, turnY] = [Math.cos(perBin), Math.sin(perBin)];
    let x = 1;
    let y = 0;
    let real = 0;
    let imaginary = 0;
    for (let bin = 0; bin < bins; bin++) {
      real += (line[bin] as number) * x;
      imaginary += (line[bin] as number) * y;
      // Turning a pointer on is many times quicker than a cosine and a sine for each bin, and as exact over some hundred.
      const turned = x * turnX - y * turnY;
      y = x * turnY + y * turnX;
      x = turned;
    }
    const correction = perBin === 0 ? 1 : Math.min(10, perBin / Math.sin(perBin));
    return (Math.hypot(real, imaginary) / Math.abs(total)) * correction;
  });
  return { frequencies, modulation };
}

/** First frequency at which a curve falls below a level, between its points by a straight line. */
export function firstFall(frequencies: Float64Array, modulation: Float64Array, level: number): number | null {
  const after = modulation.findIndex((value) => value < level);
  if (after < 1) return null;
  const [f0, f1] = [frequencies[after - 1] as number, frequencies[after] as number];
  const [m0, m1] = [modulation[after - 1] as number, modulation[after] as number];
  return f0 + ((m0 - level) / (m0 - m1)) * (f1 - f0);
}

/** px along the row between 10 % and 90 % of the step. */
export function riseWidth(values: Float64Array): number {
  const above = values.findIndex((value, bin) => bin > 0.25 * values.length && value > 0.9);
  let below = above;
  while (below > 0 && (values[below] as number) > 0.1) below--;
  return Math.max(0, above - below) / BINS_PER_PX;
}

export function shapeOf(values: Float64Array): EdgeShape {
  const half = values.length / 2;
  const smooth = (bin: number) => ((values[bin - 1] as number) + (values[bin] as number) + (values[bin + 1] as number)) / 3;
  const zone = (from: number, to: number) =>
    Array.from({ length: Math.floor((to - from) * half) - 1 }, (_, k) => Math.floor(from * half) + k + 1);
  const average = (bins: readonly number[], sign: 1 | -1) =>
    bins.reduce((sum, k) => sum + (values[sign === 1 ? half + k : half - 1 - k] as number), 0) / bins.length;
  const plateau = zone(0.4, 0.99);
  const brightLevel = average(plateau, 1);
  const darkLevel = average(plateau, -1);
  const close = zone(0, 0.4);
  const highest = Math.max(...close.map((k) => smooth(half + k)));
  const lowest = Math.min(...close.map((k) => smooth(half - 1 - k)));
  const change = ([1, -1] as const).map((sign) => Math.abs(average(zone(0.7, 0.99), sign) - average(zone(0.4, 0.7), sign)));
  return {
    overshoot: highest - brightLevel,
    undershoot: darkLevel - lowest,
    plateauSpread: Math.sqrt(plateau.reduce((sum, k) => sum + (smooth(half + k) - brightLevel) ** 2, 0) / plateau.length),
    unevenness: Math.max(...change),
  };
}
