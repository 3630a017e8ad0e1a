import { normals } from "../random.ts";
import { blurred, encode, luminanceOf, type Raster, type Triple } from "../raster.ts";

export type Sensor = {
  /** factor on all light: above about 1.15 paper white is lost */
  readonly exposure: number;
  readonly whiteBalance: Triple;
  /** stray light, as a part of white */
  readonly veil?: number;
  /** standard deviation at white from counted light, and from electronics everywhere; linear */
  readonly shotNoise: number;
  readonly readNoise: number;
  /** 0 straight, 0.3 the strong curve of a phone */
  readonly contrast?: number;
  /** encoded values below this become black */
  readonly crush?: number;
  readonly sharpening?: { readonly amount: number; readonly radiusPx: number };
  readonly bits: 8 | 16;
  readonly seed: number;
};

export type Codes = { readonly widthPx: number; readonly heightPx: number; readonly data: Uint8Array | Uint16Array };

/** Light to file values: stray light and noise in linear light, then balance, curve, sharpening, steps. */
export function develop(raster: Raster, sensor: Sensor): Codes {
  const { widthPx, heightPx, data } = raster;
  const encoded = new Float32Array(data.length);
  const normal = normals(sensor.seed);
  const veil = sensor.veil ?? 0;
  for (let i = 0; i < data.length; i++) {
    const light = Math.max(0, (data[i] as number) * sensor.exposure + veil);
    const noisy = light + normal() * Math.sqrt(sensor.shotNoise ** 2 * light + sensor.readNoise ** 2);
    const balanced = noisy * (sensor.whiteBalance[i % 3] as number);
    encoded[i] = curve(encode(balanced), sensor.contrast ?? 0, sensor.crush ?? 0);
  }
  if (sensor.sharpening) sharpen(encoded, widthPx, heightPx, sensor.sharpening);
  return { widthPx, heightPx, data: stepped(encoded, sensor.bits) };
}

function curve(value: number, contrast: number, crush: number): number {
  const bent = value + contrast * (value * value * (3 - 2 * value) - value);
  return crush === 0 ? bent : Math.max(0, (bent - crush) / (1 - crush));
}

/** Unsharp masking of the lightness alone, as phones and scanners do: it leaves a halo along edges. */
function sharpen(encoded: Float32Array, widthPx: number, heightPx: number, mask: { amount: number; radiusPx: number }): void {
  const lightness = new Float32Array(widthPx * heightPx);
  for (let i = 0; i < lightness.length; i++) {
    lightness[i] = luminanceOf(encoded[i * 3] as number, encoded[i * 3 + 1] as number, encoded[i * 3 + 2] as number);
  }
  const soft = blurred(lightness, widthPx, heightPx, 1, mask.radiusPx);
  for (let i = 0; i < lightness.length; i++) {
    const halo = mask.amount * ((lightness[i] as number) - (soft[i] as number));
    for (let c = 0; c < 3; c++) encoded[i * 3 + c] = (encoded[i * 3 + c] as number) + halo;
  }
}

function stepped(encoded: Float32Array, bits: 8 | 16): Uint8Array | Uint16Array {
  const most = bits === 8 ? 255 : 65535;
  const out = bits === 8 ? new Uint8Array(encoded.length) : new Uint16Array(encoded.length);
  for (let i = 0; i < encoded.length; i++) out[i] = Math.min(most, Math.max(0, Math.round((encoded[i] as number) * most)));
  return out;
}
