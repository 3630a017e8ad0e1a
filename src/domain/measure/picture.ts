/**
 * One decoded capture, upright. It keeps the codes of the file, so that clipping and bit depth can
 * be read, together with the way from codes to linear light, so that everything else can be.
 *
 * Coordinates: pixel (x, y) has its centre at (x, y) and covers x ± 0.5, y ± 0.5; x grows to the
 * right, y downwards.
 */
export type Picture = {
  readonly widthPx: number;
  readonly heightPx: number;
  /** R, G, B interleaved, row by row, as stored; a grey file has three equal channels */
  readonly codes: Uint8Array | Uint16Array;
  readonly maxCode: 255 | 65535;
  /** for R, G, B: linear light 0..1 of every code (256 or 65,536 entries) */
  readonly linearOf: readonly [Float32Array, Float32Array, Float32Array];
  /** linear R, G, B of the file's space to X, Y, Z relative to D50 (white has Y = 1); 3 × 3, row by row */
  readonly toXyzD50: readonly number[];
};

export type Point = { readonly x: number; readonly y: number };

/** Corners of the print or of its picture, in pixels, named as the print is seen in the capture. */
export type Quad = {
  readonly topLeft: Point;
  readonly topRight: Point;
  readonly bottomRight: Point;
  readonly bottomLeft: Point;
};

/** Luminance Y (0..1, D50) at a pixel. */
export function luminanceAt(picture: Picture, x: number, y: number): number {
  const at = (y * picture.widthPx + x) * 3;
  const [red, green, blue] = picture.linearOf;
  const m = picture.toXyzD50;
  return (
    (m[3] as number) * (red[picture.codes[at] as number] as number) +
    (m[4] as number) * (green[picture.codes[at + 1] as number] as number) +
    (m[5] as number) * (blue[picture.codes[at + 2] as number] as number)
  );
}

/** X, Y, Z (D50, white Y = 1) at a pixel. */
export function xyzAt(picture: Picture, x: number, y: number): readonly [number, number, number] {
  const at = (y * picture.widthPx + x) * 3;
  const [red, green, blue] = picture.linearOf;
  const r = red[picture.codes[at] as number] as number;
  const g = green[picture.codes[at + 1] as number] as number;
  const b = blue[picture.codes[at + 2] as number] as number;
  const m = picture.toXyzD50 as readonly [number, number, number, number, number, number, number, number, number];
  return [m[0] * r + m[1] * g + m[2] * b, m[3] * r + m[4] * g + m[5] * b, m[6] * r + m[7] * g + m[8] * b];
}
