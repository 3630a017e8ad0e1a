/** Red, green and blue in linear light, interleaved, row by row; 1 is a perfect white. */
export type Raster = { readonly widthPx: number; readonly heightPx: number; readonly data: Float32Array };

export type Triple = readonly [number, number, number];

export const newRaster = (widthPx: number, heightPx: number): Raster => ({
  widthPx,
  heightPx,
  data: new Float32Array(widthPx * heightPx * 3),
});

export const luminanceOf = (r: number, g: number, b: number): number => 0.2126 * r + 0.7152 * g + 0.0722 * b;

const DECODED = Float32Array.from({ length: 256 }, (_, code) => decode(code / 255));

/** sRGB code to linear light (IEC 61966-2-1). */
export const linearOfCode = (code: number): number => DECODED[code] as number;

function decode(v: number): number {
  return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
}

const ENCODED = tabulated(encodeExactly);
const ENCODED_DARK = tabulated((part) => encodeExactly(part / 64));

/** Linear light to sRGB, 0..1 (IEC 61966-2-1); the dark end has a table of its own, where the curve is steep. */
export const encode = (linear: number): number => (linear < 1 / 64 ? ENCODED_DARK(linear * 64) : ENCODED(linear));

/** A curve over 0..1 read from a table, with straight lines between its steps: powers are slow, and a sheet has millions of points. */
export function tabulated(curve: (value: number) => number): (value: number) => number {
  const steps = 4096;
  const table = Float32Array.from({ length: steps + 2 }, (_, i) => curve(Math.min(1, i / steps)));
  return (value) => {
    const at = Math.min(1, Math.max(0, value)) * steps;
    const i = at | 0;
    const low = table[i] as number;
    return low + ((table[i + 1] as number) - low) * (at - i);
  };
}

function encodeExactly(linear: number): number {
  return linear <= 0.0031308 ? linear * 12.92 : 1.055 * linear ** (1 / 2.4) - 0.055;
}

/** Colour at a place between pixel centres; what lies outside repeats the border. Writes into `out`. */
export function sampleAt(raster: Raster, x: number, y: number, out: Float32Array): void {
  const { widthPx, heightPx, data } = raster;
  const cx = Math.min(Math.max(x, 0), widthPx - 1.001);
  const cy = Math.min(Math.max(y, 0), heightPx - 1.001);
  const left = cx | 0;
  const top = cy | 0;
  const u = cx - left;
  const v = cy - top;
  const a = (top * widthPx + left) * 3;
  const c = a + widthPx * 3;
  for (let i = 0; i < 3; i++) {
    const upper = (data[a + i] as number) * (1 - u) + (data[a + 3 + i] as number) * u;
    const lower = (data[c + i] as number) * (1 - u) + (data[c + 3 + i] as number) * u;
    out[i] = upper * (1 - v) + lower * v;
  }
}

/** Gaussian blur of interleaved channels; the border is repeated outwards. Gives a new array. */
export function blurred(data: Float32Array, widthPx: number, heightPx: number, channels: number, sigmaPx: number): Float32Array {
  if (sigmaPx < 0.15) return data.slice();
  const kernel = gaussian(sigmaPx);
  return alongColumns(alongRows(data, widthPx, heightPx, channels, kernel), widthPx * channels, heightPx, kernel);
}

function gaussian(sigmaPx: number): Float64Array {
  const reach = Math.max(1, Math.ceil(2.8 * sigmaPx));
  const kernel = Float64Array.from({ length: 2 * reach + 1 }, (_, i) => Math.exp(-((i - reach) ** 2) / (2 * sigmaPx ** 2)));
  const sum = kernel.reduce((total, weight) => total + weight, 0);
  return kernel.map((weight) => weight / sum);
}

function alongRows(data: Float32Array, widthPx: number, heightPx: number, channels: number, kernel: Float64Array): Float32Array {
  const reach = (kernel.length - 1) / 2;
  const row = widthPx * channels;
  const out = new Float32Array(data.length);
  const padded = new Float32Array(row + 2 * reach * channels);
  for (let y = 0; y < heightPx; y++) {
    const start = y * row;
    padded.set(data.subarray(start, start + row), reach * channels);
    for (let p = 0; p < reach; p++) {
      for (let c = 0; c < channels; c++) {
        padded[p * channels + c] = data[start + c] as number;
        padded[(reach + widthPx + p) * channels + c] = data[start + row - channels + c] as number;
      }
    }
    for (let x = 0; x < row; x++) {
      const middle = x + reach * channels;
      let sum = (kernel[reach] as number) * (padded[middle] as number);
      for (let k = 1, d = channels; k <= reach; k++, d += channels) {
        sum += (kernel[reach + k] as number) * ((padded[middle - d] as number) + (padded[middle + d] as number));
      }
      out[start + x] = sum;
    }
  }
  return out;
}

function alongColumns(data: Float32Array, row: number, heightPx: number, kernel: Float64Array): Float32Array {
  const reach = (kernel.length - 1) / 2;
  const out = new Float32Array(data.length);
  for (let y = 0; y < heightPx; y++) {
    const to = y * row;
    const centre = kernel[reach] as number;
    for (let x = 0; x < row; x++) out[to + x] = centre * (data[to + x] as number);
    for (let k = 1; k <= reach; k++) {
      const above = Math.max(0, y - k) * row;
      const below = Math.min(heightPx - 1, y + k) * row;
      const weight = kernel[reach + k] as number;
      for (let x = 0; x < row; x++)
        out[to + x] = (out[to + x] as number) + weight * ((data[above + x] as number) + (data[below + x] as number));
    }
  }
  return out;
}
