import { expect, test } from "vitest";
import type { EdgeStrip } from "#domain/measure/sharpness/edge-places.ts";
import { slantedEdge } from "#domain/measure/sharpness/slanted-edge.ts";
import { drawEdge, responseOf } from "../../../fixtures/edges.ts";
import { normalCdf } from "../../../fixtures/picture-scenes.ts";

function read(strip: EdgeStrip) {
  const edge = slantedEdge(strip);
  if ("refused" in edge) throw new Error(edge.refused);
  return edge;
}

test("the response is 1 at frequency 0 and follows its closed form up to half the sampling", () => {
  const edge = read(drawEdge({ angleDeg: 5, sigmaPx: 0.8 }));
  expect(edge.frequencies[0]).toBe(0);
  expect(edge.modulation[0]).toBeCloseTo(1, 9);
  edge.frequencies.forEach((frequency, index) => {
    if (frequency <= 0.5) expect(Math.abs((edge.modulation[index] as number) - responseOf(frequency, 0.8, 5))).toBeLessThan(0.01);
  });
});

test("bright left or bright right, leaning left or right, an edge reads the same", () => {
  const right = read(drawEdge({ angleDeg: 5, sigmaPx: 0.6 }));
  const left = read(drawEdge({ angleDeg: 5, sigmaPx: 0.6, brightLeft: true }));
  const mirrored = read(drawEdge({ angleDeg: -5, sigmaPx: 0.6 }));
  expect((left.sfr50 as number) / (right.sfr50 as number)).toBeCloseTo(1, 2);
  expect((mirrored.sfr50 as number) / (right.sfr50 as number)).toBeCloseTo(1, 2);
  expect(mirrored.angleDeg).toBeCloseTo(-right.angleDeg, 3);
});

test("twice the light reads the same", () => {
  const dim = read(drawEdge({ angleDeg: 4, sigmaPx: 0.7, dark: 0.1, bright: 0.4 }));
  const lit = read(drawEdge({ angleDeg: 4, sigmaPx: 0.7, dark: 0.2, bright: 0.8 }));
  expect(lit.sfr50 as number).toBeCloseTo(dim.sfr50 as number, 5);
  expect(lit.step).toBeCloseTo(2 * dim.step, 5);
});

test("a strip whose rows begin at shifted columns reads as one whose rows do not", () => {
  const whole = drawEdge({ angleDeg: 5, sigmaPx: 0.6, rows: 200, widthPx: 100 });
  const startPx = Int32Array.from({ length: 200 }, (_, row) => Math.round(20 + (row - 99.5) * Math.tan((5 * Math.PI) / 180)));
  const data = Float32Array.from(
    { length: 200 * 60 },
    (_, at) => whole.data[Math.floor(at / 60) * 100 + (startPx[Math.floor(at / 60)] as number) + (at % 60)] as number,
  );
  const shifted = read({ rows: 200, widthPx: 60, data, startPx });
  const straight = read(whole);
  expect(shifted.angleDeg).toBeCloseTo(straight.angleDeg, 3);
  expect((shifted.sfr50 as number) / (straight.sfr50 as number)).toBeCloseTo(1, 2);
});

test("light that changes by a third along the edge does not change the reading", () => {
  const even = drawEdge({ angleDeg: 5, sigmaPx: 0.6 });
  const data = even.data.map((value, at) => value * (1 - Math.floor(at / 80) / 360));
  const ratio = (read({ ...even, data }).sfr50 as number) / (read(even).sfr50 as number);
  expect(Math.abs(ratio - 1)).toBeLessThan(0.01);
});

test.each([301, 302, 303])("noise of a fortieth of the step moves SFR50 by less than 3 %% (seed %d)", (seed) => {
  const edge = read(drawEdge({ angleDeg: 5, sigmaPx: 0.6, rows: 240, noise: 0.015, seed }));
  const truth = read(drawEdge({ angleDeg: 5, sigmaPx: 0.6, rows: 240 }));
  expect(Math.abs((edge.sfr50 as number) / (truth.sfr50 as number) - 1)).toBeLessThan(0.03);
  expect(edge.stepToNoise).toBeGreaterThan(30);
  expect(edge.stepToNoise).toBeLessThan(50);
});

test("dust on some rows is left out", () => {
  const clean = drawEdge({ angleDeg: 5, sigmaPx: 0.6, rows: 200 });
  const data = clean.data.slice();
  for (let row = 90; row < 100; row++) data.fill(0.05, row * 80 + 36, row * 80 + 50);
  const ratio = (read({ ...clean, data }).sfr50 as number) / (read(clean).sfr50 as number);
  expect(Math.abs(ratio - 1)).toBeLessThan(0.03);
});

test("an edge along the pixels counts less than one cycle, a leaning one its whole number", () => {
  expect(read(drawEdge({ angleDeg: 0, sigmaPx: 1 })).cycles).toBeLessThan(0.01);
  expect(read(drawEdge({ angleDeg: 5, sigmaPx: 1 })).cycles).toBeCloseTo(120 * Math.tan((5 * Math.PI) / 180), 1);
});

test("a lean of a simple fraction leaves bins empty, and that is reported", () => {
  expect(
    read(drawEdge({ angleDeg: (Math.atan(0.5) * 180) / Math.PI, sigmaPx: 1, rows: 60, widthPx: 90, offsetPx: 0.12 })).emptyShare,
  ).toBeGreaterThan(0.3);
});

test.each([
  ["too few rows", drawEdge({ angleDeg: 5, sigmaPx: 0.6, rows: 20 }), "too short"],
  ["one pixel", { rows: 1, widthPx: 1, data: new Float32Array(1), startPx: new Int32Array(1) }, "too short"],
  [
    "nothing but one tone",
    { rows: 60, widthPx: 48, data: new Float32Array(60 * 48).fill(0.5), startPx: new Int32Array(60) },
    "no straight edge",
  ],
  ["a step of 2 %", drawEdge({ angleDeg: 5, sigmaPx: 0.6, dark: 0.49, bright: 0.51 }), "too little contrast"],
  ["noise of a fifth of the step", drawEdge({ angleDeg: 5, sigmaPx: 0.6, dark: 0.3, bright: 0.5, noise: 0.04 }), "noise or texture"],
  [
    "numbers that are none",
    { rows: 60, widthPx: 48, data: new Float32Array(60 * 48).fill(Number.NaN), startPx: new Int32Array(60) },
    "no straight edge",
  ],
])("%s is refused with the reason", (_, strip, reason) => {
  const edge = slantedEdge(strip);
  expect("refused" in edge && edge.refused).toContain(reason);
});

/** Across a column, through a square pixel; rows hold the leaning edge at every phase. */
function throughPixel(x: number, sigmaPx: number, angleDeg: number): number {
  const [cosine, sine] = [Math.cos((angleDeg * Math.PI) / 180), Math.sin((angleDeg * Math.PI) / 180)];
  let sum = 0;
  for (let i = 0; i < 16; i++)
    for (let j = 0; j < 16; j++) sum += normalCdf(((x + (i + 0.5) / 16 - 0.5) * cosine - ((j + 0.5) / 16 - 0.5) * sine) / sigmaPx);
  return sum / 256;
}

/** By the mask [-a, 1 + 2a, -a] along the row: the highest of E + a (2 E(x) - E(x - 1) - E(x + 1)), less 1. */
function overshootOf(sigmaPx: number, angleDeg: number, a: number): number {
  const spread = (x: number) => throughPixel(x, sigmaPx, angleDeg);
  let highest = 1;
  for (let x = 0; x < 5; x += 0.02) highest = Math.max(highest, (1 + 2 * a) * spread(x) - a * (spread(x - 1) + spread(x + 1)));
  return highest - 1;
}

test.each([
  [0.5, 4, 0.3],
  [0.5, 7, 1],
  [0.8, 5, 0.5],
  [0.8, 3, 1.5],
  [1.2, 5, 1],
])("an edge of blur %d px at %d°, sharpened by %d, overshoots within 5 %% of what its closed form says", (sigmaPx, angleDeg, sharpen) => {
  const truth = overshootOf(sigmaPx, angleDeg, sharpen);
  const edge = read(drawEdge({ angleDeg, sigmaPx, sharpen, rows: 200 }));
  expect(truth).toBeGreaterThan(0.02);
  expect(Math.abs(edge.overshoot / truth - 1)).toBeLessThan(0.05);
  expect(Math.abs(edge.undershoot / truth - 1)).toBeLessThan(0.05);
});
