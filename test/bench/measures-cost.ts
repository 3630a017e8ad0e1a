import { borderCast } from "#domain/measure/border-cast.ts";
import { borderEvenness } from "#domain/measure/border-evenness.ts";
import { borderGlare } from "#domain/measure/border-glare.ts";
import { clipping } from "#domain/measure/clipping.ts";
import { compareCaptures } from "#domain/measure/compare-captures.ts";
import { fileFacts } from "#domain/measure/file-facts.ts";
import { glareAlone } from "#domain/measure/glare-alone.ts";
import { misregistration } from "#domain/measure/misregistration.ts";
import { missingLevels } from "#domain/measure/missing-levels.ts";
import { noise } from "#domain/measure/noise.ts";
import type { Picture } from "#domain/measure/picture.ts";
import type { Outline } from "#domain/measure/reading.ts";
import { resolution } from "#domain/measure/resolution.ts";
import { tonalRange } from "#domain/measure/tonal-range.ts";
import { random } from "../fixtures/picture-scenes.ts";
import { contextFor, INSTANT, pictureOf } from "../fixtures/pictures.ts";
import { drawGrid } from "../fixtures/print-grids.ts";

// Prints what each measure of quality costs on a picture of 24 megapixels, in seconds of processor time (not of the
// clock, so that other work on the machine does not count). Run: npx tsx test/bench/measures-cost.ts

const WIDTH = 4240;
const HEIGHT = 5660;
const LEAN = 0.03;

/** A leaning sheet with a border and a textured picture, some of it clipped; drawn coarsely, since only the cost matters. */
function largePicture(bits: 8 | 16): { picture: Picture; outline: Outline } {
  const codes = bits === 8 ? new Uint8Array(WIDTH * HEIGHT * 3) : new Uint16Array(WIDTH * HEIGHT * 3);
  const gain = bits === 8 ? 1 : 257;
  const corner = (x: number, y: number) => ({ x: x - LEAN * (y - HEIGHT / 2), y: y + LEAN * (x - WIDTH / 2) });
  const quad = (left: number, top: number, right: number, bottom: number) => ({
    topLeft: corner(left, top),
    topRight: corner(right, top),
    bottomRight: corner(right, bottom),
    bottomLeft: corner(left, bottom),
  });
  const grain = Uint8Array.from({ length: 65536 }, (_, index) => 8 * random(index, 1, 2));
  for (let y = 0, at = 0; y < HEIGHT; y++) {
    for (let x = 0; x < WIDTH; x++, at += 3) {
      const u = x + LEAN * (y - HEIGHT / 2);
      const v = y - LEAN * (x - WIDTH / 2);
      const onSheet = u > 400 && u < 3840 && v > 740 && v < 4920;
      const inPicture = u > 585 && u < 3655 && v > 993 && v < 3987;
      const level = inPicture ? ((x >> 5) * 37 + (y >> 5) * 91) % 262 : onSheet ? 225 : 40;
      const value = gain * Math.min(255, level + (grain[(x * 7 + y * 131) & 65535] as number));
      codes[at] = value;
      codes[at + 1] = value;
      codes[at + 2] = value;
    }
  }
  const sides = { top: "seen", right: "seen", bottom: "seen", left: "seen" } as const;
  const outline: Outline = { sheet: quad(400, 740, 3840, 4920), image: quad(585, 993, 3655, 3987), cornerSpreadPx: 0.5, sides };
  return { picture: pictureOf(codes, WIDTH, HEIGHT), outline };
}

async function secondsOf(work: () => unknown): Promise<number> {
  const before = process.cpuUsage();
  await work();
  const used = process.cpuUsage(before);
  return (used.user + used.system) / 1e6;
}

const measures = {
  resolution,
  clipping,
  borderGlare,
  glareAlone,
  borderEvenness,
  borderCast,
  noise,
  misregistration,
  tonalRange,
  missingLevels,
  fileFacts,
};
for (const bits of [8, 16] as const) {
  const { picture, outline } = largePicture(bits);
  const context = contextFor(INSTANT, { bitsPerChannel: bits });
  console.log(`${bits} bits, ${((WIDTH * HEIGHT) / 1e6).toFixed(1)} megapixels`);
  let total = 0;
  for (const [name, measure] of Object.entries(measures)) {
    const seconds = await secondsOf(() => measure(picture, outline, context));
    total += seconds;
    console.log(`  ${name.padEnd(16)} ${seconds.toFixed(3)} s`);
  }
  console.log(`  ${"all".padEnd(16)} ${total.toFixed(3)} s`);
}
const grids = [0, 1, 2].map((index) => ({ captureId: index, grid: drawGrid({ seed: 1, pxPerMm: 4 + index, widthMm: 79, heightMm: 77 }) }));
console.log(`comparing two captures   ${(await secondsOf(() => compareCaptures(grids.slice(0, 2)))).toFixed(3)} s`);
console.log(`comparing three captures ${(await secondsOf(() => compareCaptures(grids))).toFixed(3)} s`);
