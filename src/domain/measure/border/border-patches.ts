import { homographyFromMm, project } from "../homography.ts";
import { lengthOf, SIDES } from "../lines.ts";
import type { Picture } from "../picture.ts";
import type { Outline } from "../reading.ts";
import { type Border, borderSideAt } from "./border.ts";

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
const known = new WeakMap<Outline, { readonly picture: Picture; readonly patches: BorderPatches }>();

export function borderPatches(picture: Picture, outline: Outline, border: Border): BorderPatches {
  const before = known.get(outline);
  if (before?.picture === picture) return before.patches;
  const patches = readBorderPatches(picture, outline, border);
  known.set(outline, { picture, patches });
  return patches;
}

/** The same, read anew. */
export function readBorderPatches(picture: Picture, outline: Outline, border: Border): BorderPatches {
  const across = lengthOf(outline.sheet, "top") + lengthOf(outline.sheet, "bottom");
  const down = lengthOf(outline.sheet, "left") + lengthOf(outline.sheet, "right");
  const longSidePx = Math.max(across, down) / 2;
  const along = Math.min(PATCHES_ALONG, longSidePx / SMALLEST_PATCH_PX);
  const columns = Math.max(4, Math.round((along * across) / Math.max(across, down)));
  const rows = Math.max(4, Math.round((along * down) / Math.max(across, down)));
  const samples = Math.min(SAMPLES_ALONG, Math.max(1, Math.round(across / 2 / columns)));
  const map = homographyFromMm(columns, rows, outline.sheet);
  const { codes, widthPx, heightPx, linearOf, toXyzD50 } = picture;
  const [redOf, greenOf, blueOf] = linearOf;
  const [ofRed, ofGreen, ofBlue] = [toXyzD50[3] as number, toXyzD50[4] as number, toXyzD50[5] as number];
  const upperEnd = 0.995 * picture.maxCode;
  const most = columns * rows;
  const kept = { cell: new Int32Array(most), u: new Float32Array(most), v: new Float32Array(most), side: new Uint8Array(most) };
  const means = { red: new Float32Array(most), green: new Float32Array(most), blue: new Float32Array(most) };
  const luminance = new Float32Array(most);
  let patches = 0;
  let looked = 0;
  let clipped = 0;
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const side = borderSideAt(border, project(map, column + 0.5, row + 0.5));
      if (!side) continue;
      const corner = project(map, column, row);
      const right = project(map, column + 1, row);
      const below = project(map, column, row + 1);
      let r = 0;
      let g = 0;
      let b = 0;
      let count = 0;
      for (let j = 0; j < samples; j++) {
        const t = (j + 0.5) / samples;
        for (let i = 0; i < samples; i++) {
          const s = (i + 0.5) / samples;
          const x = Math.round(corner.x + (right.x - corner.x) * s + (below.x - corner.x) * t);
          const y = Math.round(corner.y + (right.y - corner.y) * s + (below.y - corner.y) * t);
          if (!(x >= 0 && y >= 0 && x < widthPx && y < heightPx)) continue;
          const at = ((y | 0) * widthPx + (x | 0)) * 3;
          const [red, green, blue] = [codes[at] as number, codes[at + 1] as number, codes[at + 2] as number];
          r += redOf[red] as number;
          g += greenOf[green] as number;
          b += blueOf[blue] as number;
          if (red > upperEnd || green > upperEnd || blue > upperEnd) clipped++;
          count++;
        }
      }
      looked += count;
      if (count < samples * samples) continue;
      kept.cell[patches] = row * columns + column;
      kept.u[patches] = (2 * (column + 0.5)) / columns - 1;
      kept.v[patches] = (2 * (row + 0.5)) / rows - 1;
      kept.side[patches] = SIDES.indexOf(side);
      means.red[patches] = r / count;
      means.green[patches] = g / count;
      means.blue[patches] = b / count;
      luminance[patches] = (ofRed * r + ofGreen * g + ofBlue * b) / count;
      patches++;
    }
  }
  return {
    columns,
    rows,
    cell: kept.cell.slice(0, patches),
    u: kept.u.slice(0, patches),
    v: kept.v.slice(0, patches),
    side: kept.side.slice(0, patches),
    red: means.red.slice(0, patches),
    green: means.green.slice(0, patches),
    blue: means.blue.slice(0, patches),
    luminance: luminance.slice(0, patches),
    clippedShare: looked === 0 ? 0 : clipped / looked,
  };
}

/** Patches of two readings of one sheet, those of the second after those of the first. */
export function joined(one: BorderPatches, other: BorderPatches): BorderPatches {
  const floats = (name: "u" | "v" | "red" | "green" | "blue" | "luminance") => Float32Array.from([...one[name], ...other[name]]);
  return {
    ...one,
    cell: Int32Array.from([...one.cell, ...other.cell]),
    side: Uint8Array.from([...one.side, ...other.side]),
    u: floats("u"),
    v: floats("v"),
    red: floats("red"),
    green: floats("green"),
    blue: floats("blue"),
    luminance: floats("luminance"),
  };
}
