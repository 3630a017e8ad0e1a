import type { GridPlane } from "./grid-plane.ts";

const PASSES = 2;

/**
 * Nearly a Gaussian blur of `sigma` px, by two running means each way: its cost does not grow with sigma. Beyond the rim
 * the nearest value holds; the plane has no NaN. A width that is not whole is met by weighing the outermost values less.
 */
export function boxBlurred({ width, height, data }: GridPlane, sigma: number): GridPlane {
  const reach = (Math.sqrt((12 * sigma * sigma) / PASSES + 1) - 1) / 2;
  let from = data;
  for (let pass = 0; pass < PASSES; pass++) {
    const across = new Float32Array(data.length);
    for (let y = 0; y < height; y++) meanLine(from, across, y * width, 1, width, reach);
    const down = new Float32Array(data.length);
    for (let x = 0; x < width; x++) meanLine(across, down, x, width, height, reach);
    from = down;
  }
  return { width, height, data: from };
}

function meanLine(from: Float32Array, to: Float32Array, start: number, step: number, count: number, reach: number): void {
  const whole = Math.floor(reach);
  const rest = reach - whole;
  const weight = 1 / (2 * reach + 1);
  const last = start + (count - 1) * step;
  const [first, end] = [from[start] as number, from[last] as number];
  let sum = first * whole;
  for (let k = 0; k <= whole; k++) sum += k < count ? (from[start + k * step] as number) : end;
  for (let k = 0, at = start; k < count; k++, at += step) {
    const before = k - whole - 1 >= 0 ? (from[at - (whole + 1) * step] as number) : first;
    const after = k + whole + 1 < count ? (from[at + (whole + 1) * step] as number) : end;
    to[at] = (sum + rest * (before + after)) * weight;
    sum += after - (k - whole >= 0 ? (from[at - whole * step] as number) : first);
  }
}
