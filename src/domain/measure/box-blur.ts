import type { GridPlane } from "./grid-plane.ts";

const PASSES = 2;

/**
 * Nearly a Gaussian blur of `sigma` px, by two running means each way: its cost does not grow with sigma. Beyond the rim
 * the nearest value holds; the plane has no NaN. A width that is not whole is met by weighing the outermost values less.
 */
export function boxBlurred({ width, height, data }: GridPlane, sigma: number): GridPlane {
  const reach = (Math.sqrt((12 * sigma * sigma) / PASSES + 1) - 1) / 2;
  const line = new Float64Array(Math.max(width, height) + 2 * (Math.floor(reach) + 1));
  let from = data;
  for (let pass = 0; pass < PASSES; pass++) {
    const across = new Float32Array(data.length);
    for (let y = 0; y < height; y++) meanLine(from, across, y * width, 1, width, reach, line);
    const down = new Float32Array(data.length);
    for (let x = 0; x < width; x++) meanLine(across, down, x, width, height, reach, line);
    from = down;
  }
  return { width, height, data: from };
}

/** @param line room for the line with its ends drawn out, so that the loop asks nothing */
function meanLine(
  from: Float32Array,
  to: Float32Array,
  start: number,
  step: number,
  count: number,
  reach: number,
  line: Float64Array,
): void {
  const whole = Math.floor(reach);
  const rest = reach - whole;
  const weight = 1 / (2 * reach + 1);
  const beyond = whole + 1;
  line.fill(from[start] as number, 0, beyond);
  for (let k = 0, at = start; k < count; k++, at += step) line[beyond + k] = from[at] as number;
  line.fill(from[start + (count - 1) * step] as number, beyond + count, count + 2 * beyond);
  let sum = 0;
  for (let k = 1; k < 2 * beyond; k++) sum += line[k] as number;
  for (let k = 0, at = start; k < count; k++, at += step) {
    const after = line[k + 2 * beyond] as number;
    to[at] = (sum + rest * ((line[k] as number) + after)) * weight;
    sum += after - (line[k + 1] as number);
  }
}
