import { type Border, borderSideAt } from "./border.ts";
import { homographyFromMm, project } from "./homography.ts";
import { lengthOf, SIDES } from "./lines.ts";
import type { Picture } from "./picture.ts";
import type { Outline } from "./reading.ts";

/**
 * The plain border as small square patches in the print's own grid, each the mean of up to 4 × 4 of its pixels in
 * linear light. Their number does not grow with the sampling, so a reading costs the same for any capture.
 */
export type BorderPatches = {
  /** patches of the whole sheet, across and down */
  readonly columns: number;
  readonly rows: number;
  /** of each border patch: its place in that grid, row by row */
  readonly cell: Int32Array;
  /** its centre, -1..1 across and down the sheet */
  readonly u: Float32Array;
  readonly v: Float32Array;
  /** index into SIDES */
  readonly side: Uint8Array;
  readonly red: Float32Array;
  readonly green: Float32Array;
  readonly blue: Float32Array;
  /** luminance Y, 0..1 */
  readonly luminance: Float32Array;
  /** share of all border pixels looked at with a channel at its upper end */
  readonly clippedShare: number;
};

/** Patches along the longer side of the sheet, about 0.4 mm each on the common small print; fewer where they would hold too few pixels. */
const PATCHES_ALONG = 270;
const SMALLEST_PATCH_PX = 3;
const SAMPLES_ALONG = 4;

/** Several measures read the same border: it is looked at once for each outline. */
const looked = new WeakMap<Outline, { readonly picture: Picture; readonly patches: BorderPatches }>();

export function borderPatches(picture: Picture, outline: Outline, border: Border): BorderPatches {
  const known = looked.get(outline);
  if (known?.picture === picture) return known.patches;
  const patches = readPatches(picture, outline, border);
  looked.set(outline, { picture, patches });
  return patches;
}

function readPatches(picture: Picture, outline: Outline, border: Border): BorderPatches {
  const across = lengthOf(outline.sheet, "top") + lengthOf(outline.sheet, "bottom");
  const down = lengthOf(outline.sheet, "left") + lengthOf(outline.sheet, "right");
  const longSidePx = Math.max(across, down) / 2;
  const along = Math.min(PATCHES_ALONG, longSidePx / SMALLEST_PATCH_PX);
  const columns = Math.max(4, Math.round((along * across) / Math.max(across, down)));
  const rows = Math.max(4, Math.round((along * down) / Math.max(across, down)));
  const samples = Math.min(SAMPLES_ALONG, Math.max(1, Math.round(across / 2 / columns)));
  const map = homographyFromMm(columns, rows, outline.sheet);
  const kept = { cell: [] as number[], u: [] as number[], v: [] as number[], side: [] as number[] };
  const means = { red: [] as number[], green: [] as number[], blue: [] as number[], luminance: [] as number[] };
  const reader = pixelReader(picture);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const side = borderSideAt(border, project(map, column + 0.5, row + 0.5));
      if (!side) continue;
      const corner = project(map, column, row);
      const right = project(map, column + 1, row);
      const below = project(map, column, row + 1);
      reader.start();
      for (let j = 0; j < samples; j++) {
        for (let i = 0; i < samples; i++) {
          const s = (i + 0.5) / samples;
          const t = (j + 0.5) / samples;
          reader.add(
            corner.x + (right.x - corner.x) * s + (below.x - corner.x) * t,
            corner.y + (right.y - corner.y) * s + (below.y - corner.y) * t,
          );
        }
      }
      if (reader.count() < samples * samples) continue;
      const [red, green, blue, luminance] = reader.mean();
      kept.cell.push(row * columns + column);
      kept.u.push((2 * (column + 0.5)) / columns - 1);
      kept.v.push((2 * (row + 0.5)) / rows - 1);
      kept.side.push(SIDES.indexOf(side));
      means.red.push(red);
      means.green.push(green);
      means.blue.push(blue);
      means.luminance.push(luminance);
    }
  }
  return {
    columns,
    rows,
    cell: Int32Array.from(kept.cell),
    u: Float32Array.from(kept.u),
    v: Float32Array.from(kept.v),
    side: Uint8Array.from(kept.side),
    red: Float32Array.from(means.red),
    green: Float32Array.from(means.green),
    blue: Float32Array.from(means.blue),
    luminance: Float32Array.from(means.luminance),
    clippedShare: reader.clippedShare(),
  };
}

/** Adds up nearest pixels in linear light; places outside the frame are not counted. */
function pixelReader({ codes, widthPx, heightPx, maxCode, linearOf, toXyzD50 }: Picture) {
  const [redOf, greenOf, blueOf] = linearOf;
  const upperEnd = 0.995 * maxCode;
  // a number with a fraction that a closure keeps is made anew for each sum; one in an array is not
  const sums = new Float64Array(3);
  let count = 0;
  let clipped = 0;
  let all = 0;
  return {
    start: () => {
      sums.fill(0);
      count = 0;
    },
    add: (x: number, y: number) => {
      const column = Math.round(x);
      const row = Math.round(y);
      if (!(column >= 0 && row >= 0 && column < widthPx && row < heightPx)) return;
      const at = (row * widthPx + column) * 3;
      const r = codes[at] as number;
      const g = codes[at + 1] as number;
      const b = codes[at + 2] as number;
      sums[0] = (sums[0] as number) + (redOf[r] as number);
      sums[1] = (sums[1] as number) + (greenOf[g] as number);
      sums[2] = (sums[2] as number) + (blueOf[b] as number);
      count++;
      all++;
      if (r > upperEnd || g > upperEnd || b > upperEnd) clipped++;
    },
    count: () => count,
    mean: (): [number, number, number, number] => {
      const [red, green, blue] = sums as unknown as [number, number, number];
      const luminance = (toXyzD50[3] as number) * red + (toXyzD50[4] as number) * green + (toXyzD50[5] as number) * blue;
      return [red / count, green / count, blue / count, luminance / count];
    },
    clippedShare: () => (all === 0 ? 0 : clipped / all),
  };
}
