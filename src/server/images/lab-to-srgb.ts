import { FLOAT_LAB, FLOAT_RGB, littleCms, RELATIVE_COLORIMETRIC } from "./little-cms.ts";

const CHUNK_PIXELS = 1 << 20;

/**
 * 8-bit CIELAB of a TIFF (TIFF 6.0, section 23: L* 0..255, a* and b* signed) to 16-bit sRGB.
 * White is taken as D50, as in print work (common practice, no source); a white point in the file is not read.
 */
export async function labToSrgb16(codes: Uint8Array): Promise<Uint16Array> {
  const lcms = await littleCms();
  const lab = lcms.cmsCreateLab4Profile(null);
  const srgb = lcms.cmsCreate_sRGBProfile();
  const transform = lcms.cmsCreateTransform(lab, FLOAT_LAB, srgb, FLOAT_RGB, RELATIVE_COLORIMETRIC, 0);
  const out = new Uint16Array(codes.length);
  for (let at = 0; at < codes.length; at += CHUNK_PIXELS * 3) {
    const chunk = codes.subarray(at, at + CHUNK_PIXELS * 3);
    const values = Float32Array.from(chunk, (code, index) => (index % 3 === 0 ? (code / 255) * 100 : (code << 24) >> 24));
    const rgb = lcms.cmsDoTransform(transform, values, chunk.length / 3);
    for (let index = 0; index < chunk.length; index++) out[at + index] = Math.round(Math.min(1, Math.max(0, rgb[index] as number)) * 65535);
  }
  lcms.cmsDeleteTransform(transform);
  lcms.cmsCloseProfile(lab);
  lcms.cmsCloseProfile(srgb);
  return out;
}
