import { mkdirSync, writeFileSync } from "node:fs";
import path from "node:path";
import sharp from "sharp";
import { DEMO_EVEN_SHEETS, DEMO_TARGET_CHECKS, DEMO_TARGET_PICTURES } from "./checks.ts";
import { type Drawn, drawCard, drawEvenSheet } from "./draw.ts";

/** Draws the demo's pictures of test targets and even sheets again; seeded. */

mkdirSync(DEMO_TARGET_PICTURES, { recursive: true });
for (const check of DEMO_TARGET_CHECKS) await write(check.file, check.ppi, drawCard(check));
for (const sheet of DEMO_EVEN_SHEETS) await write(sheet.file, 300, drawEvenSheet(sheet));

async function write(file: string, ppi: number, { data, widthPx: width, heightPx: height }: Drawn): Promise<void> {
  // colours at full resolution: halved, red and blue would seem to lie beside green
  const bytes = await sharp(data, { raw: { width, height, channels: 3 } })
    .withDensity(ppi)
    .withIccProfile("srgb")
    .jpeg({ quality: 92, chromaSubsampling: "4:4:4", optimiseCoding: true })
    .toBuffer();
  writeFileSync(path.join(DEMO_TARGET_PICTURES, file), bytes);
  console.log(`${file.padEnd(30)} ${(bytes.length / 1000).toFixed(0)} kB`);
}
