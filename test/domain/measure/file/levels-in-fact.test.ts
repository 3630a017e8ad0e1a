import { expect, test } from "vitest";
import { levelsInFact } from "#domain/measure/file/levels-in-fact.ts";
import { random } from "../../../fixtures/picture-scenes.ts";
import { WIDENINGS, type Widening } from "../../../fixtures/widenings.ts";

const PIXELS = 160_000;
const BITS = [8, 9, 10, 11, 12, 13, 14, 15] as const;
/** Written with other seeds (5, 6); looked at once with this one. */
const SEED = 41;

/** Shares of the scale, one for each pixel. */
type Content = Float64Array;
const contentOf = (shareOf: (index: number) => number): Content => Float64Array.from({ length: PIXELS }, (_, index) => shareOf(index));
const EVERY_TONE = contentOf((index) => random(index, 3, SEED));
const CONTENTS: readonly Content[] = [
  EVERY_TONE,
  EVERY_TONE.map((share) => 0.15 * share ** 2),
  // a plain wall with noise
  EVERY_TONE.map((share) => 0.5 + 0.08 * share),
];
const CURVES: Record<string, (share: number) => number> = {
  "power 1.3": (share) => share ** 1.3,
  "power 1 / 2.2": (share) => share ** (1 / 2.2),
  "an S": (share) => share * share * (3 - 2 * share),
};

/** Of a content in so many bits, widened to 16 and then put through a curve in 16. */
function histogramOf(content: Content, bits: number, widen: Widening, curve: (share: number) => number = (share) => share): Uint32Array {
  const histogram = new Uint32Array(65536);
  for (const share of content) {
    const code = Math.min(2 ** bits - 1, Math.floor(share * 2 ** bits));
    const at = Math.round(65535 * curve(widen(code, bits) / 65535));
    histogram[at] = (histogram[at] as number) + 1;
  }
  return histogram;
}

test.each(Object.entries(WIDENINGS))("8 to 15 bits that were widened by %s are told exactly, in light and dark contents", (_, widen) => {
  for (const content of CONTENTS)
    for (const bits of BITS) expect(levelsInFact(histogramOf(content, bits, widen))).toMatchObject({ shows: "grid", bits });
});

test("codes that stand a constant above a grid, and values stuck at both ends, hide no grid", () => {
  const histogram = histogramOf(EVERY_TONE, 10, (code) => Math.min(65535, code * 64 + 17));
  histogram[0] = 500;
  histogram[65535] = 500;
  expect(levelsInFact(histogram)).toMatchObject({ shows: "grid", bits: 10 });
});

test.each(Object.entries(CURVES))("after %s in 16 bits at most one bit too many is told, and never one too few", (_, curve) => {
  const widen = WIDENINGS["scaling with rounding"] as Widening;
  for (const content of CONTENTS)
    for (const bits of BITS) {
      const read = levelsInFact(histogramOf(content, bits, widen, curve));
      if (read.shows === "comb") expect([bits, bits + 1]).toContain(read.bits);
      if (read.shows === "part") expect(read.bits).toBeLessThanOrEqual(bits);
      expect(read.shows).not.toBe("grid");
    }
  for (const bits of [10, 12]) expect(levelsInFact(histogramOf(EVERY_TONE, bits, widen, curve)).shows).toBe("comb");
});

test("16 bits show nothing, also where a plain wall or a curve uses few of them, and where there are fewer pixels than codes", () => {
  const widen: Widening = (code) => code;
  for (const content of CONTENTS) expect(levelsInFact(histogramOf(content, 16, widen)).shows).toBe("nothing");
  expect(levelsInFact(histogramOf(EVERY_TONE, 16, widen, CURVES["an S"])).shows).toBe("nothing");
  const few = new Uint32Array(65536);
  for (let index = 0; index < 17_000; index++) {
    const at = Math.floor(65536 * random(index, 3, SEED));
    few[at] = (few[at] as number) + 1;
  }
  expect(levelsInFact(few).shows).toBe("nothing");
});

test("some hundred plain colours of 16 bits, or a handful, are too few to tell", () => {
  for (const colours of [5, 300]) {
    const content = EVERY_TONE.map((share) => random(Math.floor(colours * share), 5, SEED));
    expect(levelsInFact(histogramOf(content, 16, (code) => code)).shows).toBe("too-few");
  }
});
