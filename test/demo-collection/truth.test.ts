import path from "node:path";
import sharp from "sharp";
import { describe, expect, test } from "vitest";
import { DEMO_CAPTURES, readDemoManifest } from "../../demo-collection/read-manifest.ts";

const manifest = readDemoManifest();
type Point = { x: number; y: number };
const apart = (p: Point, q: Point) => Math.hypot(p.x - q.x, p.y - q.y);

describe("the truth kept of a capture", () => {
  const scanned = manifest.captures
    .filter(({ method }) => method === "flatbed-scanner")
    .flatMap(({ file, truth }) => truth.map((each) => ({ file, ...each })));
  test.each(scanned)(
    "$file: corners, millimetres and pixels per inch of $objectNumber agree",
    ({ sheetPx, sheetWidthMm, sheetHeightMm, ppiX, ppiY }) => {
      const [topLeft, topRight, bottomRight, bottomLeft] = sheetPx;
      for (const length of [apart(topLeft, topRight), apart(bottomLeft, bottomRight)])
        expect((length / sheetWidthMm) * 25.4).toBeCloseTo(ppiX, 0);
      for (const length of [apart(topLeft, bottomLeft), apart(topRight, bottomRight)])
        expect((length / sheetHeightMm) * 25.4).toBeCloseTo(ppiY, 0);
    },
  );

  // a white border on a ground of black card or velvet: the step in the file itself shows where the corners are
  const onBlack = manifest.captures.filter(({ file }) =>
    ["1974.004.01_copy-stand-1.jpg", "2003.001.02_flatbed-2.png", "2019.001.01_copy-stand-1.tif"].includes(file),
  );
  test.each(onBlack)("$file: half-way between border and ground lies where the corners say", async ({ file, truth }) => {
    const { data, info } = await sharp(path.join(DEMO_CAPTURES, file)).toColourspace("b-w").raw().toBuffer({ resolveWithObject: true });
    const [sheet] = truth;
    if (!sheet) throw new Error("no truth");
    const [topLeft, topRight, bottomRight, bottomLeft] = sheet.sheetPx;
    const y = Math.round((topLeft.y + bottomLeft.y) / 2);
    const share = (y - topLeft.y) / (bottomLeft.y - topLeft.y);
    const left = topLeft.x + share * (bottomLeft.x - topLeft.x);
    const right = topRight.x + ((y - topRight.y) / (bottomRight.y - topRight.y)) * (bottomRight.x - topRight.x);
    const row = Array.from({ length: info.width }, (_, x) => linear(data[(y * info.width + x) * info.channels] ?? 0));
    expect(Math.abs(crossing(row, Math.round(left) - 8, 1) - left)).toBeLessThan(0.35);
    expect(Math.abs(crossing(row, Math.round(right) + 8, -1) - right)).toBeLessThan(0.35);
  });

  test("clipping is what the file of a lossless capture shows", async () => {
    const { truth } = manifest.captures.find(({ file }) => file === "2003.001.02_flatbed-2.png") ?? {};
    const { data, info } = await sharp(path.join(DEMO_CAPTURES, "2003.001.02_flatbed-2.png")).raw().toBuffer({ resolveWithObject: true });
    let clipped = 0;
    for (let i = 0; i < data.length; i += info.channels) if (data[i] === 255 || data[i + 1] === 255 || data[i + 2] === 255) clipped++;
    const sheetShare =
      ((truth?.[0]?.sheetWidthMm ?? 0) * (truth?.[0]?.sheetHeightMm ?? 0)) / ((info.width * info.height) / (400 / 25.4) ** 2);
    // whatever is clipped at all lies on the sheet: the ground is black
    expect((100 * clipped) / (info.width * info.height) / sheetShare).toBeCloseTo(truth?.[0]?.clippedHighlightsPercent ?? -1, 1);
  });
});

/** Linear light of an 8-bit sRGB value, IEC 61966-2-1. */
const linear = (code: number) => (code <= 10 ? code / 255 / 12.92 : ((code / 255 + 0.055) / 1.055) ** 2.4);

/** Where the light passes half of the border's, going inwards from a place on the ground. */
function crossing(row: readonly number[], from: number, step: 1 | -1): number {
  const ground = row[from] ?? 0;
  const border = row[from + 24 * step] ?? 0;
  const half = (ground + border) / 2;
  for (let x = from; Math.abs(x - from) < 24; x += step) {
    const here = row[x] ?? 0;
    const next = row[x + step] ?? 0;
    if (next >= half) return x + (step * (half - here)) / (next - here);
  }
  return Number.NaN;
}
