import { labOf } from "../colour/lab.ts";
import { eachCorner } from "../lines.ts";
import type { Picture, Point, Quad } from "../picture.ts";

/** A small copy for finding prints: block averages in linear light, then L*, a*, b* and a texture feature. */
export type ReducedCopy = {
  readonly widthPx: number;
  readonly heightPx: number;
  /** full pixels along one side of a block */
  readonly factor: number;
  readonly lightness: Float32Array;
  readonly a: Float32Array;
  readonly b: Float32Array;
  /** 3 × ln(standard deviation of L* over 5 × 5 + 0.3): the same step means the same ratio of texture */
  readonly texture: Float32Array;
};

const LONG_SIDE_PX = 520;

/** Remainder pixels at the right and bottom that fill no whole block are left out. */
export function reducedCopy(picture: Picture): ReducedCopy {
  const longSide = Math.max(picture.widthPx, picture.heightPx);
  const factor = Math.max(1, Math.min(Math.round(longSide / LONG_SIDE_PX), picture.widthPx, picture.heightPx));
  const widthPx = Math.floor(picture.widthPx / factor);
  const heightPx = Math.floor(picture.heightPx / factor);
  const size = widthPx * heightPx;
  const copy = { lightness: new Float32Array(size), a: new Float32Array(size), b: new Float32Array(size) };
  const [m0, m1, m2, m3, m4, m5, m6, m7, m8] = picture.toXyzD50 as [number, number, number, number, number, number, number, number, number];
  const sums = new Float64Array(widthPx * 3);
  // Sixteen pixels or so of a large block say enough about its mean.
  const stride = factor >= 6 ? Math.max(2, Math.floor(factor / 4)) : 1;
  const perBlock = Math.ceil(factor / stride) ** 2;
  for (let y = 0; y < heightPx; y++) {
    sums.fill(0);
    for (let inner = 0; inner < factor; inner += stride) addRow(picture, sums, y * factor + inner, widthPx, factor, stride);
    for (let x = 0; x < widthPx; x++) {
      const r = (sums[x * 3] as number) / perBlock;
      const g = (sums[x * 3 + 1] as number) / perBlock;
      const b = (sums[x * 3 + 2] as number) / perBlock;
      const lab = labOf(m0 * r + m1 * g + m2 * b, m3 * r + m4 * g + m5 * b, m6 * r + m7 * g + m8 * b);
      const at = y * widthPx + x;
      copy.lightness[at] = lab[0];
      copy.a[at] = lab[1];
      copy.b[at] = lab[2];
    }
  }
  return { widthPx, heightPx, factor, ...copy, texture: textureOf(copy.lightness, widthPx, heightPx) };
}

/** Centre of a block of the copy in the full picture. */
export function toFull(copy: ReducedCopy, point: Point): Point {
  const shift = (copy.factor - 1) / 2;
  return { x: point.x * copy.factor + shift, y: point.y * copy.factor + shift };
}

/** A quad of the full picture on the copy. */
export const quadToCopy = ({ factor }: ReducedCopy, quad: Quad): Quad =>
  eachCorner(quad, ({ x, y }) => ({ x: (x - (factor - 1) / 2) / factor, y: (y - (factor - 1) / 2) / factor }));

function addRow(picture: Picture, sums: Float64Array, y: number, blocks: number, factor: number, stride: number): void {
  const { codes } = picture;
  const [red, green, blue] = picture.linearOf;
  let at = y * picture.widthPx * 3;
  for (let block = 0; block < blocks; block++, at += factor * 3) {
    let r = 0;
    let g = 0;
    let b = 0;
    for (let inner = 0; inner < factor * 3; inner += stride * 3) {
      r += red[codes[at + inner] as number] as number;
      g += green[codes[at + inner + 1] as number] as number;
      b += blue[codes[at + inner + 2] as number] as number;
    }
    sums[block * 3] = (sums[block * 3] as number) + r;
    sums[block * 3 + 1] = (sums[block * 3 + 1] as number) + g;
    sums[block * 3 + 2] = (sums[block * 3 + 2] as number) + b;
  }
}

const REACH = 2;

function textureOf(lightness: Float32Array, widthPx: number, heightPx: number): Float32Array {
  const texture = new Float32Array(widthPx * heightPx);
  const sum = new Float64Array(widthPx);
  const squares = new Float64Array(widthPx);
  for (let y = 0; y < heightPx; y++) {
    const top = Math.max(0, y - REACH);
    const bottom = Math.min(heightPx - 1, y + REACH);
    for (let x = 0; x < widthPx; x++) {
      let down = 0;
      let downSquares = 0;
      for (let row = top, at = top * widthPx + x; row <= bottom; row++, at += widthPx) {
        const value = lightness[at] as number;
        down += value;
        downSquares += value * value;
      }
      sum[x] = down;
      squares[x] = downSquares;
    }
    for (let x = 0; x < widthPx; x++) {
      const left = Math.max(0, x - REACH);
      const right = Math.min(widthPx - 1, x + REACH);
      let total = 0;
      let totalSquares = 0;
      for (let column = left; column <= right; column++) {
        total += sum[column] as number;
        totalSquares += squares[column] as number;
      }
      const count = (right - left + 1) * (bottom - top + 1);
      const variance = Math.max(0, totalSquares / count - (total / count) ** 2);
      texture[y * widthPx + x] = 3 * Math.log(Math.sqrt(variance) + 0.3);
    }
  }
  return texture;
}
