/**
 * Corner, sampling and skew errors on drawn prints with known truth. The search was tuned on seeds from 1000; what is
 * reported is read from seeds from 5000, which nobody looked at.
 *
 *   npx tsx test/bench/outline-accuracy.ts [cases, default 80] [first seed, default 5000]
 */

import { sampling } from "#domain/measure/geometry/sampling.ts";
import { skew } from "#domain/measure/geometry/skew.ts";
import { findOutlines } from "#domain/measure/outline/outline.ts";
import type { Quad } from "#domain/measure/picture.ts";
import { isPresent, type Outline, type Reading } from "#domain/measure/reading.ts";
import { drawPicture, type Truth } from "../fixtures/pictures.ts";
import { outlineCase } from "./outline-cases.ts";

type Result = {
  readonly kind: string;
  readonly found: "all sides seen" | "some assumed" | "not found" | "several found";
  readonly sheetMm: number;
  readonly pictureMm: number;
  readonly ppiPercent: number;
  readonly skewDegrees: number;
  /** true error over the stated spread */
  readonly ppiOverSpread: number;
  readonly sheetOverSpread: number;
  readonly milliseconds: number;
};

const count = Number(process.argv[2] ?? 80);
const first = Number(process.argv[3] ?? 5000);
const results: Result[] = [];
for (let seed = first; seed < first + count; seed++) {
  const result = tryCase(seed);
  results.push(result);
  if (result.found !== "all sides seen" || result.sheetMm > 0.5) {
    console.log(
      `seed ${seed}: ${result.kind}, ${result.found}, sheet ${result.sheetMm.toFixed(2)} mm, picture ${result.pictureMm.toFixed(2)} mm`,
    );
  }
}

console.log(`\n${count} cases, seeds ${first} to ${first + count - 1}; worst corner of each case; median / 95th / worst`);
console.table(
  Object.fromEntries(
    [...new Set(results.map(({ kind }) => kind)), "all"].map((kind) => [
      kind,
      row(kind === "all" ? results : results.filter((each) => each.kind === kind)),
    ]),
  ),
);

function tryCase(seed: number): Result {
  const { scene, kind, context, ppi, turnDeg } = outlineCase(seed);
  const { picture, truths } = drawPicture(scene);
  const start = performance.now();
  const outlines = findOutlines(picture, context);
  const milliseconds = performance.now() - start;
  const [truth] = truths as [Truth];
  const [outline] = outlines;
  const mm = 25.4 / ppi;
  const [scale] = sampling(picture, outline ?? null, context);
  const [turn] = skew(picture, outline ?? null, context);
  const ppiPercent = 100 * Math.abs(ppiOf(scale) / ppi - 1);
  const spreadPercent = isPresent(scale) ? (100 * (scale.spread ?? Number.NaN)) / scale.value : Number.NaN;
  return {
    kind,
    found: outcome(outlines),
    sheetMm: outline ? worst(outline.sheet, truth.sheet) * mm : Number.NaN,
    pictureMm: outline?.image ? worst(outline.image, truth.image) * mm : Number.NaN,
    ppiPercent,
    skewDegrees: isPresent(turn) ? Math.abs(Number(turn.detail?.degreesClockwise) - turnDeg) : Number.NaN,
    ppiOverSpread: ppiPercent / spreadPercent,
    sheetOverSpread: outline ? worst(outline.sheet, truth.sheet) / outline.cornerSpreadPx : Number.NaN,
    milliseconds,
  };
}

function outcome(outlines: readonly Outline[]): Result["found"] {
  const [outline] = outlines;
  if (!outline) return "not found";
  if (outlines.length > 1) return "several found";
  return Object.values(outline.sides).every((side) => side === "seen") ? "all sides seen" : "some assumed";
}

function ppiOf(reading: Reading | undefined): number {
  return isPresent(reading) ? reading.value : Number.NaN;
}

function worst(quad: Quad, truth: Quad): number {
  return Math.max(
    ...(["topLeft", "topRight", "bottomRight", "bottomLeft"] as const).map((corner) =>
      Math.hypot(quad[corner].x - truth[corner].x, quad[corner].y - truth[corner].y),
    ),
  );
}

function row(cases: readonly Result[]) {
  const share = (of: Result["found"]) => cases.filter(({ found }) => found === of).length;
  const ranks = (key: "sheetMm" | "pictureMm" | "ppiPercent" | "skewDegrees" | "ppiOverSpread" | "sheetOverSpread", decimals: number) => {
    const sorted = cases
      .map((each) => each[key])
      .filter(Number.isFinite)
      .sort((a, b) => a - b);
    const at = (rank: number) => sorted[Math.min(sorted.length - 1, Math.floor(rank * sorted.length))]?.toFixed(decimals) ?? "-";
    return `${at(0.5)} / ${at(0.95)} / ${at(1)}`;
  };
  return {
    cases: cases.length,
    "seen/assumed/several/none": `${share("all sides seen")}/${share("some assumed")}/${share("several found")}/${share("not found")}`,
    "sheet mm": ranks("sheetMm", 3),
    "picture mm": ranks("pictureMm", 3),
    "ppi %": ranks("ppiPercent", 3),
    "skew °": ranks("skewDegrees", 3),
    "ppi error ÷ spread": ranks("ppiOverSpread", 2),
    "sheet error ÷ spread": ranks("sheetOverSpread", 2),
    "within 3 spreads %": Math.round((100 * cases.filter((each) => each.sheetOverSpread <= 3).length) / cases.length),
    ms: Math.round(cases.reduce((sum, { milliseconds }) => sum + milliseconds, 0) / cases.length),
  };
}
