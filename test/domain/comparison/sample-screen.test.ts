import { expect, test } from "vitest";
import { BEYOND, type ScreenPicture, sampleScreen } from "#domain/comparison/sample-screen.ts";

function drawn(widthPx: number, heightPx: number, codeAt: (x: number, y: number) => number): ScreenPicture {
  const codes = new Uint8Array(widthPx * heightPx * 3);
  for (let at = 0; at < widthPx * heightPx; at++) codes.fill(codeAt(at % widthPx, Math.floor(at / widthPx)), 3 * at, 3 * at + 3);
  return { widthPx, heightPx, codes };
}

test("sampled where it stands, a picture is itself; beyond its frame there is grey", () => {
  const source = drawn(37, 21, (x, y) => (x * 37 + y * 91) % 256);
  const same = sampleScreen(source, (x, y, into) => void Object.assign(into, { x, y }), 37, 21);
  expect(same.codes).toEqual(source.codes);
  const off = sampleScreen(source, (x, y, into) => void Object.assign(into, { x: x + 40, y }), 4, 4);
  expect([...off.codes]).toEqual(new Array(48).fill(BEYOND));
});

test("a pattern of 0.4 cycles a pixel keeps its contrast and its place at half the step, turned by 20°", () => {
  const [cos, sin] = [Math.cos(0.35), Math.sin(0.35)];
  const wave = (x: number, y: number) => 128 + 100 * Math.cos(2 * Math.PI * 0.4 * (cos * x + sin * y));
  const source = drawn(200, 200, (x, y) => Math.round(wave(x, y)));
  const made = sampleScreen(
    source,
    (x, y, into) => void Object.assign(into, { x: 100 + cos * x * 0.5, y: 100 + sin * x * 0.5 - 0.2 * y }),
    90,
    20,
  );
  let [agreed, expected] = [0, 0];
  for (let x = 0; x < 90; x++) {
    const [truth, seen] = [wave(100 + cos * x * 0.5, 100 + sin * x * 0.5) - 128, (made.codes[3 * x] as number) - 128];
    agreed += truth * seen;
    expected += truth * truth;
  }
  // 1: as strong as it was and in step with it
  expect(agreed / expected).toBeGreaterThan(0.8);
  expect(agreed / expected).toBeLessThan(1.05);
});

test("one pixel wide and high, and odd sizes, are sampled too", () => {
  const source = drawn(1, 1, () => 77);
  expect([...sampleScreen(source, (_, __, into) => void Object.assign(into, { x: 0, y: 0 }), 3, 1).codes]).toEqual(new Array(9).fill(77));
});
