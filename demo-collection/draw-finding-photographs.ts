import { mkdirSync, writeFileSync } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { FAMILY } from "./family/all-prints.ts";
import { DEMO_PHOTOGRAPHS, type DemoPhotograph } from "./finding-photographs.ts";
import { makeFront, type Sheet } from "./print-maker.ts";
import { normals, seedOf } from "./random.ts";
import { encode, sampleAt } from "./raster.ts";
import { writeCapture } from "./write-capture.ts";

/** Draws the photographs of findings again: a part of the sheet close up, with a scale in mm beside it. */

const OUT = fileURLToPath(new URL("./finding-photographs", import.meta.url));
const WIDTH_PX = 1200;
/** Card with the scale, below the print. */
const SCALE_MM = 2.4;
const CARD = 0.55;
/** How unequal a lamp low on the left lights the two sides, and how strongly it shows relief. */
const FALL_OFF = 0.45;
const RELIEF = 2.2;
const NOISE = 0.006;

mkdirSync(OUT, { recursive: true });
for (const photograph of DEMO_PHOTOGRAPHS) {
  const print = FAMILY.find(({ objectNumber }) => objectNumber === photograph.objectNumber);
  if (!print) throw new Error(`no print ${photograph.objectNumber} in the family`);
  const codes = photographed(await makeFront(print.objectNumber, print.drawing, photograph.ageing), photograph);
  const output = { kind: "jpeg", quality: 82, claimedPpi: 72, device: "phone", fNumber: "1.8", iso: "64", exposureTime: "1/60" } as const;
  writeFileSync(path.join(OUT, photograph.file), await writeCapture(codes, output, photograph.takenAt));
}

function photographed({ raster, pxPerMm }: Sheet, { file, seenMm, isRaking }: DemoPhotograph) {
  const perMm = WIDTH_PX / seenMm.width;
  const heightPx = Math.round((seenMm.height + SCALE_MM) * perMm);
  const data = new Uint8Array(WIDTH_PX * heightPx * 3);
  const noise = normals(seedOf(file));
  const [here, left] = [new Float32Array(3), new Float32Array(3)];
  for (let y = 0; y < heightPx; y++)
    for (let x = 0; x < WIDTH_PX; x++) {
      const [xMm, yMm] = [x / perMm, y / perMm];
      const light = isRaking ? 0.75 * (1 + FALL_OFF * (0.5 - xMm / seenMm.width)) : 0.78 - 0.06 * Math.hypot(xMm / seenMm.width - 0.5, 0.2);
      const isCard = yMm > seenMm.height;
      if (!isCard) {
        sampleAt(raster, (seenMm.left + xMm) * pxPerMm, (seenMm.top + yMm) * pxPerMm, here);
        if (isRaking) sampleAt(raster, (seenMm.left + xMm - 0.08) * pxPerMm, (seenMm.top + yMm) * pxPerMm, left);
      }
      for (let c = 0; c < 3; c++) {
        const sheet = here[c] as number;
        const relief = isRaking ? RELIEF * (sheet - (left[c] as number)) * 0.3 : 0;
        const seen = isCard ? scale(xMm, yMm - seenMm.height) : sheet + relief;
        data[(y * WIDTH_PX + x) * 3 + c] = 255 * encode(Math.min(1, Math.max(0, seen * light + NOISE * Math.sqrt(seen) * noise())));
      }
    }
  return { widthPx: WIDTH_PX, heightPx, data };
}

/** Bars of a millimetre, dark and light in turn, on grey card. */
function scale(xMm: number, downMm: number): number {
  if (downMm < 0.7 || downMm > 1.7) return CARD;
  return Math.floor(xMm) % 2 === 0 ? 0.04 : 0.9;
}
