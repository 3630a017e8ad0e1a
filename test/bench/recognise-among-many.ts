/**
 * How surely and how fast a capture is known again among many drawn prints: whether its own is among the likeliest from afar,
 * what a look at those says, and the processor time of both. The prints asked for are captured otherwise: in another tone curve and
 * light, softer, noisier, turned by a quarter, or with glare. Prints that are looked at closely are drawn again when they are.
 *
 *   npx tsx test/bench/recognise-among-many.ts [prints, default 10000] [asked for, default 40] [first seed, default 700000]
 */
import { type Fingerprint, fingerprintOf } from "#domain/measure/likeness/fingerprint.ts";
import { likeliest, SHORTLIST, verdictOn } from "#domain/measure/likeness/likeness.ts";
import { lookAmong } from "#domain/measure/likeness/look-among.ts";
import type { GridPlane } from "#domain/measure/planes/grid-plane.ts";
import { type DrawnGrid, drawGrid } from "../fixtures/print-grids.ts";

const count = Number(process.argv[2] ?? 10_000);
const askedFor = Number(process.argv[3] ?? 40);
const first = Number(process.argv[4] ?? 700_000);
/** px per mm: a fingerprint is made of 32 × 32 px, a close look of 240 */
const AFAR = 0.5;
const CLOSE = 3;

const OTHERWISE: readonly DrawnGrid[] = [
  { gamma: 0.7, light: { fallOff: 0.3, across: 0.3 } },
  { blurPx: 1.5, noise: 2 },
  { quarters: 1, gamma: 1.3 },
  { glare: [{ xMm: 20, yMm: 15, sigmaMm: 6, peak: 0.5 }] },
  { offMm: { x: 0.8, y: -0.6 }, offDeg: 0.7 },
];

const draw = (options: DrawnGrid): GridPlane => {
  const { widthPx, heightPx, data } = drawGrid(options);
  return { width: widthPx, height: heightPx, data };
};

const known: Fingerprint[] = Array.from({ length: count }, (_, index) =>
  fingerprintOf(draw({ seed: first + index, pxPerMm: AFAR, gamma: 0.9 })),
);
console.log(`${count} prints drawn`);

const told = {
  "own print among the likeliest": 0,
  "own print said to be the same": 0,
  "another said to be the same": 0,
  "another said to be perhaps the same": 0,
};
const times = { shortlistMs: [] as number[], lookMs: [] as number[] };
for (let asked = 0; asked < askedFor; asked++) {
  const own = Math.floor((asked * count) / askedFor);
  const plane = draw({ seed: first + own, pxPerMm: CLOSE, ...OTHERWISE[asked % OTHERWISE.length] });
  let start = process.cpuUsage();
  const shortlist = likeliest(fingerprintOf(plane), known, SHORTLIST);
  times.shortlistMs.push(spentMs(start));
  if (shortlist.some(({ index }) => index === own)) told["own print among the likeliest"]++;
  const candidates = shortlist.map(({ index, quarters }) => ({
    of: index,
    quarters,
    plane: draw({ seed: first + index, pxPerMm: CLOSE, gamma: 0.9 }),
  }));
  start = process.cpuUsage();
  const looked = await lookAmong(candidates, async (candidate) => [plane, candidate.plane]);
  times.lookMs.push(spentMs(start));
  for (const [at, { of }] of candidates.entries()) {
    const found = looked[at];
    const verdict = found ? verdictOn(found) : "other";
    if (of === own && verdict === "same") told["own print said to be the same"]++;
    if (of !== own && verdict === "same") told["another said to be the same"]++;
    if (of !== own && verdict === "perhaps") told["another said to be perhaps the same"]++;
  }
}

function spentMs(since: NodeJS.CpuUsage): number {
  const { user, system } = process.cpuUsage(since);
  return (user + system) / 1000;
}

const at = (values: readonly number[], share: number) =>
  Math.round([...values].sort((a, b) => a - b)[Math.floor(share * (values.length - 1))] ?? 0);
console.table({ "of asked for": askedFor, ...told });
console.table({
  "shortlist, ms": { middle: at(times.shortlistMs, 0.5), longest: at(times.shortlistMs, 1) },
  [`look at ${SHORTLIST}, ms`]: { middle: at(times.lookMs, 0.5), longest: at(times.lookMs, 1) },
});
