import { homographyFromMm, project } from "#domain/measure/homography.ts";
import { fineSource, type Place } from "#domain/measure/laying/fine-source.ts";
import { referenceTiles, register, registeredReference } from "#domain/measure/laying/register.ts";
import { median } from "#domain/measure/numbers/robust.ts";
import type { Quad } from "#domain/measure/picture.ts";
import { captureFinePrint, drawFinePrint, type FineCapture } from "../fixtures/fine-captures.ts";
import { contrastErrors, detailOf, savedAsJpeg, trueLimit } from "../fixtures/fine-sets.ts";

// Prints how exactly captures are registered to each other, and how corroborated detail follows the truth, on drawn captures of
// known geometry, blur and noise. Run: npx tsx test/bench/captures-together.ts. The prints 901 to 903 are drawn for nothing else.

const PRINTS = [901, 902, 903];
const A: FineCapture = { ppi: 600, blurMm: 0.04, noiseCodes: 3, noiseSeed: 1, turnDeg: 1, cornersOffMm: 0.1 };

const GEOMETRIES: Readonly<Record<string, Partial<FineCapture>>> = {
  "as it lay": {},
  "keystone 8 %, 3 degrees": { keystoneAcross: 0.08, keystoneDown: 0.03, turnDeg: 3 },
  "barrel 3 %": { barrel: 0.03 },
  "pincushion 2 %": { barrel: -0.02 },
  "curl 0.6 mm": { curlMm: 0.6 },
  "800 ppi, a quarter turned, curl": { ppi: 800, quarters: 1, curlMm: 0.3 },
  "300 ppi, soft, noisy, other tone, barrel": { ppi: 300, blurMm: 0.12, noiseCodes: 8, gamma: 1.25, gain: 0.7, barrel: 0.01 },
  "half turned, JPEG 60": { quarters: 2 },
};

console.log("| registration of | error, mm: median | 95 % | worst | residual of tiles, mm |\n| --- | --- | --- | --- | --- |");
for (const [name, changed] of Object.entries(GEOMETRIES)) {
  const errors: number[] = [];
  const residuals: number[] = [];
  for (const seed of PRINTS) {
    const print = drawFinePrint(seed);
    const drawn = captureFinePrint(print, { ...A, ...changed, noiseSeed: 2, cornersOffMm: 0.15 });
    const other = name.includes("JPEG") ? await savedAsJpeg(drawn, 60) : drawn;
    const one = captureFinePrint(print, A);
    const grid = { width: 944, height: 944, pxPerMm: 23.6 };
    const fixed = { source: fineSource(one.picture, one.quad, 1), way: wayTo(one.quad, 0) };
    const reference = registeredReference(fixed.source, fixed.way, grid);
    const found = register(
      referenceTiles(fixed.source, fixed.way, grid),
      { source: fineSource(other.picture, other.quad, 1), way: wayTo(other.quad, changed.quarters ?? 0) },
      grid,
    );
    if (!found) continue;
    residuals.push(found.residualPx / grid.pxPerMm);
    const [here, there]: [Place, Place] = [
      { x: 0, y: 0 },
      { x: 0, y: 0 },
    ];
    for (let y = 2; y < grid.height; y += 20) {
      for (let x = 2; x < grid.width; x += 20) {
        reference.placeOf(x, y, here);
        found.placeOf(x, y, there);
        const [a, b] = [one.mmAt(here.x, here.y), other.mmAt(there.x, there.y)];
        errors.push(Math.hypot(a.x - b.x, a.y - b.y));
      }
    }
  }
  const sorted = errors.toSorted((a, b) => a - b);
  const at = (share: number) => (sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN).toFixed(4);
  console.log(`| ${name} | ${at(0.5)} | ${at(0.95)} | ${at(1)} | ${median(residuals).toFixed(4)} |`);
}

const SETS: Readonly<Record<string, readonly FineCapture[]>> = {
  "600, 800, 500 ppi": [
    A,
    { ...A, ppi: 800, blurMm: 0.05, noiseSeed: 2, quarters: 1, turnDeg: 2 },
    { ...A, ppi: 500, blurMm: 0.05, noiseSeed: 3, barrel: 0.01, turnDeg: -1, noiseCodes: 2 },
  ],
  "one with three times the noise": [
    { ...A, noiseCodes: 9 },
    { ...A, noiseSeed: 2, quarters: 1 },
    { ...A, noiseSeed: 3, turnDeg: -2 },
  ],
  "one soft, sharpened": [
    A,
    { ...A, blurMm: 0.08, noiseSeed: 2, quarters: 1, sharpening: { radiusPx: 2, strength: 4 } },
    { ...A, noiseSeed: 3, turnDeg: -2 },
  ],
  "other tone in one": [A, { ...A, gamma: 1.3, gain: 0.8, noiseSeed: 2, turnDeg: 3 }, { ...A, noiseSeed: 3, quarters: 1 }],
  "four captures": [
    A,
    { ...A, noiseSeed: 2, turnDeg: 3 },
    { ...A, noiseSeed: 3, quarters: 1, blurMm: 0.06 },
    { ...A, ppi: 500, noiseSeed: 4, quarters: 3 },
  ],
  "two captures only": [A, { ...A, noiseSeed: 2, quarters: 1, blurMm: 0.06 }],
};

console.log("\n| captures | print | limit read, cy/mm | true | contrast against the best, error: median | worst |");
console.log("| --- | --- | --- | --- | --- | --- |");
for (const [name, set] of Object.entries(SETS)) {
  for (const seed of PRINTS) {
    const print = drawFinePrint(seed);
    const captures = set.map((options) => captureFinePrint(print, options));
    const readings = await detailOf(captures);
    const read = readings.map((each) => ("value" in each ? `${each.bound ? "≥ " : ""}${each.value.toFixed(2)}` : each.absent));
    const truth = set.map((options, index) => trueLimit(print, options, captures[index] as (typeof captures)[number]).toFixed(2));
    const errors = readings.flatMap((each, index) => contrastErrors(each, index, set).map((error) => 100 * error));
    const shown = errors.length > 0 ? `${median(errors).toFixed(1)} % | ${Math.max(...errors).toFixed(0)} %` : "none | none";
    console.log(`| ${name} | ${seed} | ${read.join("; ")} | ${truth.join("; ")} | ${shown} |`);
  }
}

/** From shares of the print's own picture to the frame, by the quad as found. */
function wayTo(quad: Quad, quarters: number) {
  const map = homographyFromMm(1, 1, quad);
  return (x: number, y: number, into: Place) => {
    const [u, v] = [
      [x, y],
      [1 - y, x],
      [1 - x, 1 - y],
      [y, 1 - x],
    ][quarters] as [number, number];
    const place = project(map, u, v);
    into.x = place.x;
    into.y = place.y;
  };
}
