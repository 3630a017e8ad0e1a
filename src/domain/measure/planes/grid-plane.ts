/** A rectangle of numbers, row by row. Places outside what was captured are NaN. */
export type GridPlane = { readonly width: number; readonly height: number; readonly data: Float32Array };

/** Another size by the mean of the area each new pixel covers. */
export function resized({ width, height, data }: GridPlane, toWidth: number, toHeight: number): GridPlane {
  const across = new Float32Array(toWidth * height);
  for (let y = 0; y < height; y++) shrinkLine(data, across, y * width, 1, width, y * toWidth, 1, toWidth);
  const both = new Float32Array(toWidth * toHeight);
  for (let x = 0; x < toWidth; x++) shrinkLine(across, both, x, toWidth, height, x, toWidth, toHeight);
  return { width: toWidth, height: toHeight, data: both };
}

/** What `make` makes of a plane at a size, made once for each and kept as long as the plane: for planes that many others are held against. */
export function onceForEachSize(make: (plane: GridPlane, width: number, height: number) => GridPlane): typeof make {
  const known = new WeakMap<GridPlane, GridPlane[]>();
  return (plane, width, height) => {
    const before = known.get(plane) ?? [];
    const kept = before.find((each) => each.width === width && each.height === height);
    if (kept) return kept;
    const made = make(plane, width, height);
    known.set(plane, [...before, made]);
    return made;
  };
}

/** Turned by quarters, clockwise as seen. */
export function turnedBy(plane: GridPlane, quarters: number): GridPlane {
  const { width, height, data } = plane;
  if (quarters % 4 === 0) return plane;
  if (quarters % 4 === 2) return { width, height, data: data.slice().reverse() };
  const turned = new Float32Array(data.length);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const at = quarters % 4 === 1 ? x * height + (height - 1 - y) : (width - 1 - x) * height + y;
      turned[at] = data[y * width + x] as number;
    }
  }
  return { width: height, height: width, data: turned };
}

/** Gaussian blur of `sigma` px; beyond the rim the nearest value holds. NaN stays NaN and is not spread. */
export function blurred(plane: GridPlane, sigma: number): GridPlane {
  const { width, height, data } = plane;
  const reach = Math.max(1, Math.ceil(3 * sigma));
  const kernel = Float64Array.from({ length: 2 * reach + 1 }, (_, k) => Math.exp(-((k - reach) ** 2) / (2 * sigma * sigma)));
  const across = new Float32Array(data.length);
  const result = new Float32Array(data.length);
  // room for a line with its ends drawn out, used again for each
  const line = new Float64Array(Math.max(width, height) + 2 * reach);
  for (let y = 0; y < height; y++) blurLine(data, across, y * width, 1, width, kernel, line);
  for (let x = 0; x < width; x++) blurLine(across, result, x, width, height, kernel, line);
  for (let at = 0; at < data.length; at++) if (Number.isNaN(data[at])) result[at] = Number.NaN;
  return { width, height, data: result };
}

/** Value between pixels by bilinear weights; NaN outside. */
export function valueAt({ width, height, data }: GridPlane, x: number, y: number): number {
  if (!(x >= 0 && y >= 0 && x <= width - 1 && y <= height - 1)) return Number.NaN;
  // places are not below 0 here: "| 0" cuts them to whole numbers that stay whole in the engine, as an index must be
  const x0 = Math.min(width - 2, x | 0);
  const y0 = Math.min(height - 2, y | 0);
  const fx = x - x0;
  const fy = y - y0;
  const at = y0 * width + x0;
  const upper = (data[at] as number) * (1 - fx) + (data[at + 1] as number) * fx;
  const lower = (data[at + width] as number) * (1 - fx) + (data[at + width + 1] as number) * fx;
  return upper * (1 - fy) + lower * fy;
}

function shrinkLine(
  from: Float32Array,
  to: Float32Array,
  start: number,
  step: number,
  count: number,
  toStart: number,
  toStep: number,
  toCount: number,
): void {
  const ratio = count / toCount;
  for (let k = 0; k < toCount; k++) {
    const begin = k * ratio;
    const end = Math.min(count, begin + ratio);
    let sum = 0;
    for (let at = begin | 0; at < end; at++) sum += (from[start + at * step] as number) * (Math.min(end, at + 1) - Math.max(begin, at));
    to[toStart + k * toStep] = sum / (end - begin);
  }
}

function blurLine(
  from: Float32Array,
  to: Float32Array,
  start: number,
  step: number,
  count: number,
  kernel: Float64Array,
  line: Float64Array,
): void {
  const reach = (kernel.length - 1) / 2;
  let hasGap = false;
  for (let k = 0, at = start; k < count; k++, at += step) {
    const value = from[at] as number;
    if (Number.isNaN(value)) hasGap = true;
    line[reach + k] = value;
  }
  line.fill(line[reach] as number, 0, reach);
  line.fill(line[reach + count - 1] as number, reach + count, count + 2 * reach);
  if (hasGap) {
    blurLineWithGaps(to, start, step, count, kernel, line);
    return;
  }
  const total = kernel.reduce((sum, weight) => sum + weight, 0);
  let k = 0;
  let at = start;
  // four at a time, whose sums do not wait for each other
  for (; k + 3 < count; k += 4, at += 4 * step) {
    let one = 0;
    let two = 0;
    let three = 0;
    let four = 0;
    for (let j = 0; j < kernel.length; j++) {
      const weight = kernel[j] as number;
      one += weight * (line[k + j] as number);
      two += weight * (line[k + j + 1] as number);
      three += weight * (line[k + j + 2] as number);
      four += weight * (line[k + j + 3] as number);
    }
    to[at] = one / total;
    to[at + step] = two / total;
    to[at + 2 * step] = three / total;
    to[at + 3 * step] = four / total;
  }
  for (; k < count; k++, at += step) {
    let sum = 0;
    for (let j = 0; j < kernel.length; j++) sum += (kernel[j] as number) * (line[k + j] as number);
    to[at] = sum / total;
  }
}

function blurLineWithGaps(to: Float32Array, start: number, step: number, count: number, kernel: Float64Array, line: Float64Array): void {
  for (let k = 0, at = start; k < count; k++, at += step) {
    let sum = 0;
    let weights = 0;
    for (let j = 0; j < kernel.length; j++) {
      const value = line[k + j] as number;
      if (Number.isNaN(value)) continue;
      weights += kernel[j] as number;
      sum += (kernel[j] as number) * value;
    }
    to[at] = sum / weights;
  }
}
