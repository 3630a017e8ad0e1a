import { blurred, type Raster } from "../raster.ts";

/**
 * Blurs with a Gaussian whose sigma changes over the frame, as a tilted plane of focus does. Between
 * `levels` fixed blurs the mixture is linear in sigma squared, which keeps the second moment right.
 */
export function defocus(raster: Raster, sigmaAt: (x: number, y: number) => number, range: readonly [number, number], levels = 4): Raster {
  const { widthPx, heightPx, data } = raster;
  const [least, most] = range;
  if (most - least < 0.12) return { ...raster, data: blurred(data, widthPx, heightPx, 3, (least + most) / 2) };
  const out = new Float32Array(data.length);
  const sigmas = Array.from({ length: levels }, (_, i) => least + ((most - least) * i) / (levels - 1));
  for (const [i, sigma] of sigmas.entries()) {
    const level = blurred(data, widthPx, heightPx, 3, sigma);
    const below = i > 0 ? (sigmas[i - 1] as number) ** 2 : null;
    const above = i + 1 < levels ? (sigmas[i + 1] as number) ** 2 : null;
    for (let y = 0; y < heightPx; y++) {
      for (let x = 0; x < widthPx; x++) {
        const square = Math.min(most, Math.max(least, sigmaAt(x, y))) ** 2;
        const weight = hat(square, sigma ** 2, below, above);
        if (weight === 0) continue;
        const at = (y * widthPx + x) * 3;
        for (let c = 0; c < 3; c++) out[at + c] = (out[at + c] as number) + weight * (level[at + c] as number);
      }
    }
  }
  return { ...raster, data: out };
}

function hat(value: number, middle: number, below: number | null, above: number | null): number {
  if (value <= middle) return below === null ? 1 : Math.max(0, (value - below) / (middle - below));
  return above === null ? 1 : Math.max(0, (above - value) / (above - middle));
}

/** Corners get less light than the middle; `loss` is the part missing in the corner. */
export function vignette(raster: Raster, loss: number): void {
  if (loss === 0) return;
  const { widthPx, heightPx, data } = raster;
  for (let y = 0; y < heightPx; y++) {
    for (let x = 0; x < widthPx; x++) {
      const away = ((2 * x) / widthPx - 1) ** 2 + ((2 * y) / heightPx - 1) ** 2;
      const kept = 1 - (loss * away) / 2;
      const at = (y * widthPx + x) * 3;
      for (let c = 0; c < 3; c++) data[at + c] = (data[at + c] as number) * kept;
    }
  }
}
