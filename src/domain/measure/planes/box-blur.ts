import type { GridPlane } from "./grid-plane.ts";

const PASSES = 2;

/**
 * Nearly a Gaussian blur of `sigma` px, by two running means each way: its cost does not grow with sigma. Beyond the rim
 * the nearest value holds; the plane has no NaN. A width that is not whole is met by weighing the outermost values less.
 */
export function boxBlurred(plane: GridPlane, sigma: number): GridPlane {
  const data = new Float32Array(plane.data.length);
  boxBlur(plane, data, sigma, new Float32Array(data.length));
  return { width: plane.width, height: plane.height, data };
}

/** The same into `to`, which may be the plane's own data; `room` is written over. For who blurs many planes of one size. */
export function boxBlur({ width, height, data }: GridPlane, to: Float32Array, sigma: number, room: Float32Array): void {
  const reach = (Math.sqrt((12 * sigma * sigma) / PASSES + 1) - 1) / 2;
  let from = data;
  for (let pass = 0; pass < PASSES; pass++) {
    meanAcross(from, room, width, height, reach);
    meanDown(room, to, width, height, reach);
    from = to;
  }
}

function meanAcross(from: Float32Array, to: Float32Array, width: number, height: number, reach: number): void {
  const { beyond, rest, weight } = windowOf(reach);
  // room for the line with its ends drawn out, so that the loop asks nothing
  const line = new Float64Array(width + 2 * beyond);
  for (let y = 0; y < height; y++) {
    const start = y * width;
    line.fill(from[start] as number, 0, beyond);
    for (let x = 0; x < width; x++) line[beyond + x] = from[start + x] as number;
    line.fill(from[start + width - 1] as number, beyond + width);
    let sum = 0;
    for (let k = 1; k < 2 * beyond; k++) sum += line[k] as number;
    for (let x = 0; x < width; x++) {
      const after = line[x + 2 * beyond] as number;
      to[start + x] = (sum + rest * ((line[x] as number) + after)) * weight;
      sum += after - (line[x + 1] as number);
    }
  }
}

/** All columns at once, row after row as they lie in memory. */
function meanDown(from: Float32Array, to: Float32Array, width: number, height: number, reach: number): void {
  const { beyond, rest, weight } = windowOf(reach);
  const rowAt = (y: number) => Math.min(height - 1, Math.max(0, y)) * width;
  const sums = new Float64Array(width);
  for (let y = 1 - beyond; y < beyond; y++)
    for (let x = 0, at = rowAt(y); x < width; x++, at++) sums[x] = (sums[x] as number) + (from[at] as number);
  for (let y = 0; y < height; y++) {
    const start = y * width;
    const before = rowAt(y - beyond);
    const first = rowAt(y - beyond + 1);
    const after = rowAt(y + beyond);
    for (let x = 0; x < width; x++) {
      const next = from[after + x] as number;
      const sum = sums[x] as number;
      to[start + x] = (sum + rest * ((from[before + x] as number) + next)) * weight;
      sums[x] = sum + (next - (from[first + x] as number));
    }
  }
}

/** The window reaches `beyond` to both sides; the outermost value of each counts `rest` times. */
function windowOf(reach: number) {
  const whole = Math.floor(reach);
  return { beyond: whole + 1, rest: reach - whole, weight: 1 / (2 * reach + 1) };
}
