import { readFileSync } from "node:fs";
import sharp from "sharp";
import { expect, test } from "vitest";
import type { Picture } from "#domain/measure/picture.ts";
import { clipping } from "#domain/measure/tone/clipping.ts";
import { contextOf, pictureOf } from "../fixtures/pictures.ts";
import { presentOf } from "../fixtures/readings.ts";

// B. Llanos, University of Alberta, 2019: one chart under green light, exposed from 25 ms to 3916 ms. See the folder's README.
const FOLDER = new URL("../fixtures/chart24-exposures/", import.meta.url);
const EXPOSURES = readFileSync(new URL("exposures.csv", FOLDER), "utf8")
  .trim()
  .split("\n")
  .slice(1)
  .map((line) => line.split(",")[0] as string);

/** The phase of even rows and columns of the mosaic, as a grey picture. */
async function phaseOf(file: string): Promise<Picture> {
  const { data, info } = await sharp(new URL(file, FOLDER).pathname).raw().toBuffer({ resolveWithObject: true });
  const [width, height] = [Math.floor(info.width / 2), Math.floor(info.height / 2)];
  const codes = new Uint8Array(width * height * 3);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++)
      codes.fill(data[(2 * y * info.width + 2 * x) * info.channels] as number, (y * width + x) * 3, (y * width + x) * 3 + 3);
  }
  return pictureOf(codes, width, height);
}

const shareAtWhite = ({ codes, widthPx, heightPx }: Picture) =>
  (100 * codes.filter((code) => code === 255).length) / 3 / (widthPx * heightPx);

test("the clipped share of a real chart never falls as the exposure grows from 25 ms to 3916 ms", async () => {
  const pictures = await Promise.all(EXPOSURES.map(phaseOf));
  const read = pictures.map(
    (picture) => presentOf(clipping(picture, null, contextOf({ fileKind: "tiff" })), "clippedHighlightsPercent").value,
  );
  expect(read).toHaveLength(7);
  expect(read).toEqual([...read].sort((a, b) => a - b));
  expect(read[0]).toBeLessThan(0.1);
  expect(read[6] as number).toBeGreaterThan(90);
  // by plain counting; single pixels are left out, so the reading is a little lower
  read.forEach((value, index) => {
    const counted = shareAtWhite(pictures[index] as Picture);
    expect(value).toBeLessThanOrEqual(counted);
    expect(value).toBeGreaterThan(counted - 2);
  });
});
