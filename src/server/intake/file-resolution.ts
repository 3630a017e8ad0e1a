import { type FileHandle, open } from "node:fs/promises";
import type { OriginalKind } from "#domain/capture/capture.ts";
import type { ClaimedPpi } from "#domain/capture/settings.ts";
import { bytesAt } from "../images/bytes-at.ts";

const MOST_PARTS = 200;

/**
 * The pixels per inch that a JPEG (JFIF 1.02, APP0) or PNG (W3C PNG, pHYs) claims outside EXIF; null where
 * it claims none. Read here, since the image library answers 72 for files that do not say.
 */
export async function fileResolution(path: string, kind: OriginalKind): Promise<ClaimedPpi | null> {
  if (kind !== "jpeg" && kind !== "png") return null;
  const file = await open(path, "r");
  try {
    return kind === "jpeg" ? await jfifDensity(file) : await pngDensity(file);
  } finally {
    await file.close();
  }
}

async function jfifDensity(file: FileHandle): Promise<ClaimedPpi | null> {
  let at = 2;
  for (let part = 0; part < MOST_PARTS; part++) {
    const head = await bytesAt(file, at, 18);
    if (head?.[0] !== 0xff || head[1] === 0xda) return null;
    if (head[1] === 0xe0 && head.toString("latin1", 4, 9) === "JFIF\0") {
      const perInch = { 1: 1, 2: 2.54 }[head.readUInt8(11)];
      return perInch ? claim(head.readUInt16BE(12) * perInch, head.readUInt16BE(14) * perInch) : null;
    }
    at += 2 + head.readUInt16BE(2);
  }
  return null;
}

async function pngDensity(file: FileHandle): Promise<ClaimedPpi | null> {
  let at = 8;
  for (let part = 0; part < MOST_PARTS; part++) {
    const head = await bytesAt(file, at, 17);
    const name = head?.toString("latin1", 4, 8);
    if (!head || name === "IDAT" || name === "IEND") return null;
    if (name === "pHYs") {
      const perMetre = await bytesAt(file, at + 8, 9);
      return perMetre?.readUInt8(8) === 1 ? claim(perMetre.readUInt32BE(0) * 0.0254, perMetre.readUInt32BE(4) * 0.0254) : null;
    }
    at += 12 + head.readUInt32BE(0);
  }
  return null;
}

const claim = (x: number, y: number): ClaimedPpi | null => (x >= 1 && y >= 1 && x <= 100_000 && y <= 100_000 ? { x, y } : null);
