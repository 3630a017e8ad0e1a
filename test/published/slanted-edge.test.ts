import sharp from "sharp";
import { describe, expect, test } from "vitest";
import { linearToSrgb } from "#domain/measure/colour/srgb.ts";
import type { Picture, Point } from "#domain/measure/picture.ts";
import { sideStrip } from "#domain/measure/sharpness/side-strip.ts";
import { slantedEdge } from "#domain/measure/sharpness/slanted-edge.ts";
import { drawEdge, responseOf } from "../fixtures/edges.ts";
import { pictureOf } from "../fixtures/pictures.ts";

// ISO 12233:2014 gives the method. The response of a Gaussian spread seen through a square pixel is known in closed
// form: exp(-2 π² σ² f²) · sinc(f cos θ) · sinc(f sin θ). The frequencies below are where that formula falls to 0.5 and 0.1.
test.each([
  { angleDeg: 5, sigmaPx: 0.5, sfr50: 0.3231, sfr10: 0.5814 },
  { angleDeg: 5, sigmaPx: 0.8, sfr50: 0.2201, sfr10: 0.4003 },
  { angleDeg: 2.5, sigmaPx: 0.5, sfr50: 0.3231, sfr10: 0.5813 },
  { angleDeg: 10, sigmaPx: 0.5, sfr50: 0.3232, sfr10: 0.5819 },
])("an edge at $angleDeg° with a spread of $sigmaPx px reads as its closed form says", ({ angleDeg, sigmaPx, sfr50, sfr10 }) => {
  const edge = slantedEdge(drawEdge({ angleDeg, sigmaPx }));
  if ("refused" in edge) throw new Error(edge.refused);
  expect(edge.angleDeg).toBeCloseTo(angleDeg, 1);
  expect(Math.abs(edge.angleDeg - angleDeg)).toBeLessThan(0.02);
  expect(Math.abs((edge.sfr50 as number) / sfr50 - 1)).toBeLessThan(0.02);
  expect(Math.abs((edge.sfr10 as number) / sfr10 - 1)).toBeLessThan(0.03);
  expect(responseOf(sfr50, sigmaPx, angleDeg)).toBeCloseTo(0.5, 3);
});

// The same closed form, multiplied by 1 + 2a (1 - cos(2π f cos θ)) for rows filtered by [-a, 1 + 2a, -a].
test.each([
  { sharpen: 0.1, peak: 1.0, sfr50: 0.386 },
  { sharpen: 0.25, peak: 1.039, sfr50: 0.453 },
  { sharpen: 0.5, peak: 1.32, sfr50: 0.515 },
])("an edge sharpened by $sharpen peaks at $peak and reads $sfr50 cycles/px", ({ sharpen, peak, sfr50 }) => {
  const edge = slantedEdge(drawEdge({ angleDeg: 5, sigmaPx: 0.5, sharpen }));
  if ("refused" in edge) throw new Error(edge.refused);
  const within = edge.modulation.filter((_, index) => (edge.frequencies[index] as number) <= 0.5);
  expect(Math.abs(Math.max(...within) / peak - 1)).toBeLessThan(0.015);
  expect(Math.abs((edge.sfr50 as number) / sfr50 - 1)).toBeLessThan(0.02);
});

// The file's own name gives angle and width; see test/fixtures/slanted-edge/README.md.
test("the open 16-bit edge reads its angle within 0.02° and its SFR50 within 1 %", async () => {
  const file = new URL("../fixtures/slanted-edge/edge_angle16.776550_fwhm2.101313.tif", import.meta.url).pathname;
  const { data, info } = await sharp(file).toColourspace("grey16").raw({ depth: "ushort" }).toBuffer({ resolveWithObject: true });
  const codes = new Uint16Array(data.buffer, data.byteOffset, data.length / 2);
  expect([info.width, info.height, info.channels]).toEqual([500, 100, 1]);
  const strip = { rows: 100, widthPx: 500, data: Float32Array.from(codes, (code) => code / 65535), startPx: new Int32Array(100) };
  const edge = slantedEdge(strip);
  if ("refused" in edge) throw new Error(edge.refused);
  expect(Math.abs(Math.abs(edge.angleDeg) - 16.77655)).toBeLessThan(0.02);
  expect(Math.abs((edge.sfr50 as number) / 0.2193 - 1)).toBeLessThan(0.01);
});

/** Where the closed form falls to a share, cycles per pixel. */
function frequencyAt(share: number, sigmaPx: number, angleDeg: number): number {
  let [low, high] = [0, 1];
  for (let step = 0; step < 50; step++) {
    const middle = (low + high) / 2;
    if (responseOf(middle, sigmaPx, angleDeg) > share) low = middle;
    else high = middle;
  }
  return low;
}

const CHANNELS = [
  { channel: "red", weights: [1, 0, 0], dark: 0.1, bright: 0.75, sigmaPx: 0.9 },
  { channel: "green", weights: [0, 1, 0], dark: 0.08, bright: 0.7, sigmaPx: 0.7 },
  { channel: "blue", weights: [0, 0, 1], dark: 0.15, bright: 0.6, sigmaPx: 1.2 },
] as const;

/** A colour picture of one edge as a file would hold it: each channel with its own contrast, blur and noise, in 16-bit sRGB codes. */
function colourEdge(angleDeg: number, noise: number): Picture {
  const [rows, widthPx] = [240, 100];
  const codes = new Uint16Array(3 * rows * widthPx);
  CHANNELS.forEach(({ dark, bright, sigmaPx }, channel) => {
    const { data } = drawEdge({ angleDeg, sigmaPx, dark, bright, noise, rows, widthPx, seed: 77 + 10 * channel });
    data.forEach((light, at) => {
      codes[3 * at + channel] = Math.round(65535 * linearToSrgb(Math.min(1, Math.max(0, light))));
    });
  });
  return pictureOf(codes, widthPx, rows);
}

// The same closed form at five angles, three noise levels and three channels, from the file's codes through each channel alone.
describe.each([-8, -3, 2, 5, 12])("an edge at %d°", (angleDeg) => {
  test.each([0, 0.004, 0.01])(
    "with noise of %d in linear light reads SFR50 within 3 % and SFR10 within 5 % in all three channels",
    (noise) => {
      const picture = colourEdge(angleDeg, noise);
      const [middle, lean] = [49.5, Math.tan((angleDeg * Math.PI) / 180)];
      const [from, to] = [0, 239].map((y) => ({ x: middle + (y - 119.5) * lean, y })) as [Point, Point];
      for (const { channel, weights, sigmaPx } of CHANNELS) {
        const strip = sideStrip(picture, "left", from, to, 24, weights);
        const edge = strip && slantedEdge(strip);
        if (!edge || "refused" in edge) throw new Error(edge?.refused ?? "no strip");
        expect(Math.abs((edge.sfr50 as number) / frequencyAt(0.5, sigmaPx, angleDeg) - 1), channel).toBeLessThan(0.03);
        expect(Math.abs((edge.sfr10 as number) / frequencyAt(0.1, sigmaPx, angleDeg) - 1), channel).toBeLessThan(0.05);
      }
    },
  );
});
