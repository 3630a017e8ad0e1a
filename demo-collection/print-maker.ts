import path from "node:path";
import { fileURLToPath } from "node:url";
import sharp from "sharp";
import { ageSheet, markSheet } from "./ageing.ts";
import { penned } from "./handwriting.ts";
import { LOOKS, type Look } from "./looks.ts";
import type { Ageing, PrintDrawing } from "./print-drawing.ts";
import { normals, seedOf, smoothNoise } from "./random.ts";
import { blurred, linearOfCode, luminanceOf, newRaster, type Raster, tabulated } from "./raster.ts";

const PICTURES = fileURLToPath(new URL("./pictures", import.meta.url));
const MOST_PX = 4_200_000;

/** One side of a sheet as flat reflectances, fine enough for every capture of it. */
export type Sheet = { readonly raster: Raster; readonly pxPerMm: number };

/** Draws the front: picture, border, surface, writing, then what age did. The same number gives the same grain every time. */
export async function makeFront(objectNumber: string, drawing: PrintDrawing, ageing: Ageing): Promise<Sheet> {
  const look: Look = LOOKS[drawing.look];
  const { raster, pxPerMm } = blankSheet(drawing);
  fill(raster, look.paper);
  await printPicture(raster, pxPerMm, drawing, look);
  roughen(raster, pxPerMm, look, seedOf(objectNumber));
  if (drawing.writing) await write(raster, pxPerMm, drawing.writing, drawing.ink ?? [0.12, 0.11, 0.13]);
  markSheet(raster, pxPerMm, drawing.marks ?? [], seedOf(objectNumber), ageing);
  ageSheet(raster, drawing, ageing);
  return { raster, pxPerMm };
}

/** Draws the back: paper, maker's pattern, what somebody wrote. */
export async function makeBack(objectNumber: string, drawing: PrintDrawing): Promise<Sheet> {
  const back = drawing.back;
  if (!back) throw new Error(`${objectNumber} has no back to draw`);
  const { raster, pxPerMm } = blankSheet(drawing);
  fill(raster, back.paper);
  if (back.pattern) printPattern(raster, pxPerMm, back.pattern);
  roughen(raster, pxPerMm, { ...LOOKS["gelatin silver"], grain: 0.008, texture: 0.012 }, seedOf(`${objectNumber} back`));
  await write(raster, pxPerMm, back.lines, back.ink);
  return { raster, pxPerMm };
}

function blankSheet(drawing: PrintDrawing): Sheet {
  const finest = 600 / 25.4;
  const pxPerMm = Math.min(finest, Math.sqrt(MOST_PX / (drawing.sheetWidthMm * drawing.sheetHeightMm)));
  return { raster: newRaster(Math.round(drawing.sheetWidthMm * pxPerMm), Math.round(drawing.sheetHeightMm * pxPerMm)), pxPerMm };
}

function fill(raster: Raster, colour: readonly number[]): void {
  for (let i = 0; i < raster.data.length; i++) raster.data[i] = colour[i % 3] as number;
}

async function printPicture(raster: Raster, pxPerMm: number, drawing: PrintDrawing, look: Look): Promise<void> {
  const left = Math.round(drawing.image.leftMm * pxPerMm);
  const top = Math.round(drawing.image.topMm * pxPerMm);
  const width = Math.min(raster.widthPx - left, Math.round(drawing.image.widthMm * pxPerMm));
  const height = Math.min(raster.heightPx - top, Math.round(drawing.image.heightMm * pxPerMm));
  const light = await readPicture(drawing, width, height);
  const soft = blurred(light, width, height, 3, look.softnessMm * pxPerMm);
  const curves = [0, 1, 2].map((c) => tabulated((light) => reflectanceOf(light, look, c)));
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const from = (y * width + x) * 3;
      const to = ((top + y) * raster.widthPx + left + x) * 3;
      const grey = luminanceOf(soft[from] as number, soft[from + 1] as number, soft[from + 2] as number);
      for (let c = 0; c < 3; c++) {
        const seen = grey + look.saturation * ((soft[from + c] as number) - grey);
        raster.data[to + c] = (curves[c] as (light: number) => number)(seen);
      }
    }
  }
}

/** The characteristic curve of one layer: light of the picture to reflectance of the print. */
function reflectanceOf(light: number, look: Look, channel: number): number {
  const low = look.darkest[channel] as number;
  const high = look.lightest[channel] as number;
  const reflectance = low + (high - low) * light ** look.gamma;
  return high * (reflectance / high) ** (look.tone[channel] as number);
}

async function readPicture(drawing: PrintDrawing, width: number, height: number): Promise<Float32Array> {
  const image = sharp(path.join(PICTURES, drawing.picture));
  const { width: fullWidth, height: fullHeight } = await image.metadata();
  const crop = drawing.crop ?? { left: 0, top: 0, width: 1, height: 1 };
  const { data } = await image
    .extract({
      left: Math.round(crop.left * fullWidth),
      top: Math.round(crop.top * fullHeight),
      width: Math.round(crop.width * fullWidth),
      height: Math.round(crop.height * fullHeight),
    })
    .resize(width, height, { fit: "cover", kernel: "cubic" })
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const light = new Float32Array(data.length);
  for (let i = 0; i < light.length; i++) light[i] = linearOfCode(data[i] as number);
  return light;
}

/** Grain moves the middle tones; the relief of the surface moves everything a little. */
function roughen(raster: Raster, pxPerMm: number, look: Look, seed: number): void {
  const { widthPx, heightPx, data } = raster;
  const random = normals(seed);
  const white = new Float32Array(widthPx * heightPx);
  for (let i = 0; i < white.length; i++) white[i] = random();
  const grain = blurred(white, widthPx, heightPx, 1, 0.9);
  for (let y = 0; y < heightPx; y++) {
    for (let x = 0; x < widthPx; x++) {
      const at = y * widthPx + x;
      const relief = look.texture * smoothNoise((x / pxPerMm) * 3.2, (y / pxPerMm) * 3.2, seed);
      const middle = data[at * 3 + 1] as number;
      // blurring by 0.9 px leaves a standard deviation of 0.31
      const shift = 1 + relief + (look.grain / 0.31) * (grain[at] as number) * (1 - middle) * 1.4;
      for (let c = 0; c < 3; c++) data[at * 3 + c] = (data[at * 3 + c] as number) * shift;
    }
  }
}

async function write(
  raster: Raster,
  pxPerMm: number,
  lines: Parameters<typeof penned>[0],
  ink: readonly [number, number, number],
): Promise<void> {
  const coverage = await penned(lines, raster.widthPx, raster.heightPx, pxPerMm);
  coverage.forEach((covered, at) => {
    if (covered === 0) return;
    for (let c = 0; c < 3; c++) {
      const under = raster.data[at * 3 + c] as number;
      raster.data[at * 3 + c] = under + covered * 0.85 * ((ink[c] as number) - under);
    }
  });
}

function printPattern(raster: Raster, pxPerMm: number, pattern: "diagonal" | "frame"): void {
  const { widthPx, heightPx, data } = raster;
  for (let y = 0; y < heightPx; y++) {
    for (let x = 0; x < widthPx; x++) {
      const xMm = x / pxPerMm;
      const yMm = y / pxPerMm;
      const edgeMm = Math.min(xMm, yMm, (widthPx - x) / pxPerMm, (heightPx - y) / pxPerMm);
      const along = (xMm + yMm) % 26;
      const across = Math.abs(((xMm - yMm + 400) % 18) - 9);
      const inked = pattern === "frame" ? Math.abs(edgeMm - 5) < 0.35 || Math.abs(edgeMm - 6.2) < 0.12 : across < 0.35 && along < 15;
      if (!inked) continue;
      const at = (y * widthPx + x) * 3;
      for (let c = 0; c < 3; c++) data[at + c] = (data[at + c] as number) * (pattern === "frame" ? 0.35 : 0.9);
    }
  }
}
