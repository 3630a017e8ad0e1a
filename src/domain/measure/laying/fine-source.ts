import type { Picture, Quad } from "../picture.ts";
import { type GridPlane, valueAt } from "../planes/grid-plane.ts";

/** Linear luminance of a part of a frame at its own sampling, or reduced by a whole number: what fine planes are sampled from. */
export type FineSource = {
  readonly plane: GridPlane;
  /** the part's top left pixel in the frame, and how many frame pixels make one of the plane along each side */
  readonly left: number;
  readonly top: number;
  readonly reducedBy: number;
};

/** Bounds the memory: 4 bytes each. */
const MOST_PX = 16e6;
/** Kept round the quad: the outline may be a little off, and curled prints bulge over it. */
const MARGIN_SHARE = 0.02;

/**
 * Takes the part of a frame that holds a quad.
 * @param leastPxPerQuadPx how far the frame may be reduced: pixels that must be left for each of its pixels, 0 to 1
 */
export function fineSource(picture: Picture, quad: Quad, leastPxPerQuadPx: number): FineSource {
  const corners = [quad.topLeft, quad.topRight, quad.bottomRight, quad.bottomLeft];
  const bounds = (values: readonly number[], length: number) => {
    const [low, high] = [Math.min(...values), Math.max(...values)];
    const margin = MARGIN_SHARE * (high - low);
    return [Math.max(0, Math.floor(low - margin)), Math.min(length, Math.ceil(high + margin) + 1)] as const;
  };
  const [left, right] = bounds(
    corners.map(({ x }) => x),
    picture.widthPx,
  );
  const [top, bottom] = bounds(
    corners.map(({ y }) => y),
    picture.heightPx,
  );
  const most = Math.ceil(Math.sqrt(((right - left) * (bottom - top)) / MOST_PX));
  const reducedBy = Math.max(1, most, Math.floor(1 / leastPxPerQuadPx));
  const width = Math.floor((right - left) / reducedBy);
  const height = Math.floor((bottom - top) / reducedBy);
  const data = new Float32Array(width * height);
  const { codes, widthPx, linearOf, toXyzD50 } = picture;
  const [red, green, blue] = linearOf;
  const [ofRed, ofGreen, ofBlue] = [toXyzD50[3] as number, toXyzD50[4] as number, toXyzD50[5] as number];
  for (let y = 0, into = 0; y < height; y++) {
    for (let x = 0; x < width; x++, into++) {
      let sum = 0;
      for (let j = 0; j < reducedBy; j++) {
        let at = ((top + y * reducedBy + j) * widthPx + left + x * reducedBy) * 3;
        for (let i = 0; i < reducedBy; i++, at += 3)
          sum +=
            ofRed * (red[codes[at] as number] as number) +
            ofGreen * (green[codes[at + 1] as number] as number) +
            ofBlue * (blue[codes[at + 2] as number] as number);
      }
      data[into] = sum / (reducedBy * reducedBy);
    }
  }
  return { plane: { width, height, data }, left, top, reducedBy };
}

/** Lobes of the kernel on each side. */
const LOBES = 3;
const STEPS = 512;
const KERNEL = Float64Array.from({ length: LOBES * STEPS + 2 }, (_, at) => lanczos(at / STEPS));

/** Sinc under a wider sinc: C. E. Duchon, "Lanczos Filtering in One and Two Dimensions", 1979. */
function lanczos(t: number): number {
  if (t === 0) return 1;
  if (t >= LOBES) return 0;
  const x = Math.PI * t;
  return (LOBES * Math.sin(x) * Math.sin(x / LOBES)) / (x * x);
}

/** A place in the frame, px; written into, since it is asked for at every pixel. */
export type Place = { x: number; y: number };

/**
 * Samples a source at the places that `placeOf` names for the pixels of a plane, by a Lanczos kernel of three lobes,
 * widened where the plane is coarser than the source. NaN where a place lies outside the frame's part.
 * @param sourcePxPerPx frame pixels to one pixel of the plane
 */
export function sampled(
  { plane, left, top, reducedBy }: FineSource,
  width: number,
  height: number,
  sourcePxPerPx: number,
  placeOf: (x: number, y: number, into: Place) => void,
): GridPlane {
  const stretch = Math.max(1, sourcePxPerPx / reducedBy);
  const reach = LOBES * stretch;
  const taps = Math.ceil(2 * reach);
  const across = new Float64Array(taps);
  const down = new Float64Array(taps);
  const place: Place = { x: 0, y: 0 };
  const data = new Float32Array(width * height);
  const { width: columns, height: rows, data: from } = plane;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      placeOf(x, y, place);
      const sx = (place.x + 0.5 - left) / reducedBy - 0.5;
      const sy = (place.y + 0.5 - top) / reducedBy - 0.5;
      if (!(sx >= -0.5 && sy >= -0.5 && sx <= columns - 0.5 && sy <= rows - 0.5)) {
        data[y * width + x] = Number.NaN;
        continue;
      }
      // "| 0" keeps whole numbers whole in the engine, as an index must be
      const x0 = (Math.floor(sx - reach) + 1) | 0;
      const y0 = (Math.floor(sy - reach) + 1) | 0;
      const sum = weigh(across, sx - x0, stretch) * weigh(down, sy - y0, stretch);
      let value = 0;
      const isInside = x0 >= 0 && y0 >= 0 && x0 + taps <= columns && y0 + taps <= rows;
      for (let j = 0; j < taps; j++) {
        const row = (isInside ? y0 + j : Math.min(rows - 1, Math.max(0, y0 + j))) * columns;
        let line = 0;
        if (isInside) for (let i = 0, at = row + x0; i < taps; i++, at++) line += (across[i] as number) * (from[at] as number);
        else
          for (let i = 0; i < taps; i++) line += (across[i] as number) * (from[row + Math.min(columns - 1, Math.max(0, x0 + i))] as number);
        value += line * (down[j] as number);
      }
      data[y * width + x] = value / sum;
    }
  }
  return { width, height, data };
}

/** The same by bilinear weights: quick, and exact enough where only broad patterns count. The source is about as coarse as the plane. */
export function sampledRoughly(
  { plane, left, top, reducedBy }: FineSource,
  width: number,
  height: number,
  placeOf: (x: number, y: number, into: Place) => void,
): GridPlane {
  const place: Place = { x: 0, y: 0 };
  const data = new Float32Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      placeOf(x, y, place);
      data[y * width + x] = valueAt(plane, (place.x + 0.5 - left) / reducedBy - 0.5, (place.y + 0.5 - top) / reducedBy - 0.5);
    }
  }
  return { width, height, data };
}

/** Weights of the taps for a place `offset` from the first; their sum. */
function weigh(weights: Float64Array, offset: number, stretch: number): number {
  let sum = 0;
  for (let tap = 0; tap < weights.length; tap++) {
    const t = Math.abs(offset - tap) / stretch;
    const weight = t >= LOBES ? 0 : (KERNEL[(t * STEPS + 0.5) | 0] as number);
    weights[tap] = weight;
    sum += weight;
  }
  return sum;
}

/**
 * What the kernel lets through of a pattern, averaged over the directions it may run in.
 * @param cyclesPerPx in pixels of the reduced source, stretched as the kernel was
 */
export function kernelTransfer(cyclesPerPx: number): number {
  const directions = 8;
  let sum = 0;
  for (let k = 0; k < directions; k++) {
    const angle = (Math.PI / 2) * ((k + 0.5) / directions);
    sum += transferAlong(cyclesPerPx * Math.cos(angle)) * transferAlong(cyclesPerPx * Math.sin(angle));
  }
  return sum / directions;
}

function transferAlong(cyclesPerPx: number): number {
  const step = 1 / 64;
  let sum = 0.5;
  let area = 0.5;
  for (let t = step; t < LOBES; t += step) {
    const weight = lanczos(t);
    sum += weight * Math.cos(2 * Math.PI * cyclesPerPx * t);
    area += weight;
  }
  return sum / area;
}

/** The same part at half the sampling. */
export function halved({ plane, left, top, reducedBy }: FineSource): FineSource {
  const width = plane.width >> 1;
  const height = plane.height >> 1;
  const data = new Float32Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const at = 2 * y * plane.width + 2 * x;
      const [a, b] = [plane.data[at] as number, plane.data[at + 1] as number];
      const [c, d] = [plane.data[at + plane.width] as number, plane.data[at + plane.width + 1] as number];
      data[y * width + x] = (a + b + c + d) / 4;
    }
  }
  return { plane: { width, height, data }, left, top, reducedBy: 2 * reducedBy };
}
