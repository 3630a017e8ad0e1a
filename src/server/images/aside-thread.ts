import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { parentPort, workerData } from "node:worker_threads";
import { fromFile } from "geotiff";
import decodeHeic from "heic-decode";
import { z } from "zod";
import type { AsideDecoder, AsideJob } from "./decode-aside.ts";
import { labToSrgb16 } from "./lab-to-srgb.ts";
import type { BarePixels } from "./memory-tiff.ts";

const DECODERS: Readonly<Record<AsideDecoder, (file: string, mostPixels: number) => Promise<BarePixels>>> = {
  heic: async (file) => {
    const { width, height, data } = await decodeHeic({ buffer: await readFile(file) });
    return { widthPx: width, heightPx: height, channels: 3, data: withoutAlpha(data) };
  },
  raw: decodeRaw,
  "uncommon-tiff": decodeUncommonTiff,
};

/** What the raw developer must have answered. */
const developed = z.object({
  width: z.number().int().positive(),
  height: z.number().int().positive(),
  colors: z.literal(3),
  bits: z.literal(16),
  data: z.instanceof(Uint16Array),
});

void answer(workerData as AsideJob);

async function answer({ path: file, decoder, mostPixels }: AsideJob): Promise<void> {
  try {
    const pixels = await DECODERS[decoder](file, mostPixels);
    parentPort?.postMessage({ pixels }, [pixels.data.buffer as ArrayBuffer]);
  } catch (error) {
    // the decoders throw strings, numbers and objects of their own besides errors
    parentPort?.postMessage({ error: error instanceof Error ? error.message.slice(0, 500) : "the decoder gave up" });
  }
}

/**
 * Develops a raw file plainly: camera white balance, no brightening, sRGB primaries and curve at 16 bit.
 * The package's own entrance needs a browser; its inner module does not.
 */
async function decodeRaw(file: string): Promise<BarePixels> {
  const folder = path.dirname(createRequire(import.meta.url).resolve("libraw-wasm"));
  const { default: create } = await import(pathToFileURL(path.join(folder, "libraw.js")).href);
  const { LibRaw } = await create({ wasmBinary: await readFile(path.join(folder, "libraw.wasm")) });
  const raw = new LibRaw();
  raw.open(new Uint8Array(await readFile(file)), {
    outputBps: 16,
    outputColor: 1,
    useCameraWb: true,
    noAutoBright: true,
    gamm: [1 / 2.4, 12.92, 0, 0, 0, 0],
  });
  const image = developed.parse(raw.imageData());
  return { widthPx: image.width, heightPx: image.height, channels: 3, data: image.data.slice() };
}

/** TIFFs that sharp does not read: grey of 9 to 15 bit, widened to 16, and 8-bit CIELAB, turned to sRGB. */
async function decodeUncommonTiff(file: string, mostPixels: number): Promise<BarePixels> {
  const tiff = await fromFile(file);
  try {
    const image = await tiff.getImage();
    const widthPx = image.getWidth();
    const heightPx = image.getHeight();
    if (widthPx * heightPx > mostPixels) throw new Error("too many pixels");
    const bits = image.getBitsPerSample();
    const data = await image.readRasters({ interleave: true });
    if (image.getSamplesPerPixel() === 1 && data instanceof Uint16Array)
      return { widthPx, heightPx, channels: 1, data: data.map((code) => (code << (16 - bits)) | (code >> (2 * bits - 16))) };
    if (image.getSamplesPerPixel() === 3 && data instanceof Uint8Array)
      return { widthPx, heightPx, channels: 3, data: await labToSrgb16(data) };
    throw new Error("neither grey nor CIELAB");
  } finally {
    tiff.close();
  }
}

function withoutAlpha(rgba: Uint8ClampedArray): Uint8Array {
  const rgb = new Uint8Array((rgba.length / 4) * 3);
  for (let from = 0, to = 0; from < rgba.length; from += 4, to += 3) {
    rgb[to] = rgba[from] as number;
    rgb[to + 1] = rgba[from + 1] as number;
    rgb[to + 2] = rgba[from + 2] as number;
  }
  return rgb;
}
