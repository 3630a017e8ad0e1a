import path from "node:path";
import { loopsInFrame, maskOfLoops } from "#domain/measure/marked-area.ts";
import { markedAreasOf } from "#domain/measure/marked-places.ts";
import { sharp } from "../images/policy.ts";
import type { MeasuredFile } from "./measure-plain-files.ts";

/**
 * Writes a mask for each measure of a file that marks places: a grey PNG as large as the upright image, white where
 * the measure found what it counts, black elsewhere. The screens draw the same areas.
 * @returns the names of the files written
 */
export async function writeMasks(folder: string, { file, sha256, widthPx, heightPx, outline, readings }: MeasuredFile): Promise<string[]> {
  const written: string[] = [];
  for (const reading of readings) {
    const loops = loopsInFrame(markedAreasOf(reading), outline, { widthPx, heightPx });
    if (loops.length === 0) continue;
    // part of the hash keeps files of one name from different folders apart
    const target = path.join(folder, `${path.parse(file).name}.${sha256.slice(0, 8)}.${reading.name}.png`);
    await sharp(maskOfLoops(loops, { widthPx, heightPx }), { raw: { width: widthPx, height: heightPx, channels: 1 } })
      .toColourspace("b-w")
      .png()
      .toFile(target);
    written.push(target);
  }
  return written;
}
