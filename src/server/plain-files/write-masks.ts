import { mkdir } from "node:fs/promises";
import path from "node:path";
import { maskOfPlaces } from "#domain/measure/marked-places.ts";
import { sharp } from "../images/policy.ts";
import type { MeasuredFile } from "./measure-plain-files.ts";

/**
 * Writes a mask for each measure of a file that marks places: a grey PNG as large as the upright image, white inside the
 * boxes round the places, black elsewhere.
 * @returns the names of the files written
 */
export async function writeMasks(folder: string, { file, sha256, widthPx, heightPx, outline, readings }: MeasuredFile): Promise<string[]> {
  if (!outline) return [];
  await mkdir(folder, { recursive: true });
  const written: string[] = [];
  for (const reading of readings) {
    const mask = maskOfPlaces(reading, outline, widthPx, heightPx);
    if (!mask) continue;
    // part of the hash keeps files of one name from different folders apart
    const target = path.join(folder, `${path.parse(file).name}.${sha256.slice(0, 8)}.${reading.name}.png`);
    await sharp(mask, { raw: { width: widthPx, height: heightPx, channels: 1 } })
      .toColourspace("b-w")
      .png()
      .toFile(target);
    written.push(target);
  }
  return written;
}
