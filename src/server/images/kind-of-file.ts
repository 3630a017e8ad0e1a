import { open } from "node:fs/promises";
import type { OriginalKind } from "#domain/capture/capture.ts";
import { readTiffDirectories, type TiffDirectory } from "./tiff-directory.ts";

/** `other` names what it is instead, in words for the keeper; null when it is nothing known. */
export type KindOfFile = { readonly kind: OriginalKind } | { readonly kind: null; readonly other: string | null };

const DNG_VERSION = 50706;
const PHOTOMETRIC = 262;
/** colour filter array and linear raw (DNG 1.6, PhotometricInterpretation) */
const RAW_PHOTOMETRICS = [32803, 34892];

/** Tells a file's kind by its bytes, never by its name. */
export async function kindOfFile(path: string): Promise<KindOfFile> {
  const file = await open(path, "r");
  try {
    const head = Buffer.alloc(64);
    const { bytesRead } = await file.read(head, 0, head.length, 0);
    const told = kindOfHead(head.subarray(0, bytesRead));
    if (told.kind === "tiff" && isRaw(await readTiffDirectories(file))) return { kind: "raw" };
    return told;
  } finally {
    await file.close();
  }
}

function kindOfHead(head: Buffer): KindOfFile {
  const text = (from: number, to: number) => head.toString("latin1", from, to);
  if (text(0, 3) === "\xff\xd8\xff") return { kind: "jpeg" };
  if (text(0, 8) === "\x89PNG\r\n\x1a\n") return { kind: "png" };
  if (text(0, 4) === "RIFF" && text(8, 12) === "WEBP") return { kind: "webp" };
  if (["II*\0", "MM\0*", "II+\0", "MM\0+"].includes(text(0, 4))) return { kind: "tiff" };
  if (text(4, 8) === "ftyp") return kindOfBrands(head);
  return { kind: null, other: SIGNATURES.find(([start]) => text(0, start.length) === start)?.[1] ?? null };
}

/** ISO/IEC 23008-12: the major brand, then the compatible ones. */
function kindOfBrands(head: Buffer): KindOfFile {
  const end = Math.min(head.length, head.readUInt32BE(0));
  const brands = [head.toString("latin1", 8, 12)];
  for (let at = 16; at + 4 <= end; at += 4) brands.push(head.toString("latin1", at, at + 4));
  if (brands.some((brand) => brand === "avif" || brand === "avis")) return { kind: "avif" };
  if (brands.some((brand) => ["heic", "heix", "hevc", "hevx", "heim", "heis", "mif1", "msf1"].includes(brand))) return { kind: "heic" };
  return { kind: null, other: "a video or another kind of media file" };
}

const SIGNATURES: readonly (readonly [string, string])[] = [
  ["GIF8", "a GIF picture"],
  ["BM", "a BMP picture"],
  ["%PDF", "a PDF document"],
  ["8BPS", "a layered picture document"],
  ["\0\0\0\x0cjP  ", "a JPEG 2000 picture"],
  ["\xff\x4f\xff\x51", "a JPEG 2000 picture"],
  ["\0\0\0\x0cJXL ", "a JPEG XL picture"],
  ["\xff\x0a", "a JPEG XL picture"],
  ["PK\x03\x04", "a packed folder (ZIP) or an office document"],
  ["<svg", "a drawing (SVG)"],
  ["<?xml", "a drawing or text (XML)"],
];

const isRaw = (directories: readonly TiffDirectory[]) =>
  directories.some((directory) => directory.has(DNG_VERSION) || RAW_PHOTOMETRICS.includes(directory.get(PHOTOMETRIC)?.[0] ?? 0));
