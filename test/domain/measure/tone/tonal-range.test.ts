import { expect, test } from "vitest";
import { lightnessOf } from "#domain/measure/colour/lab.ts";
import { tonalRange } from "#domain/measure/tone/tonal-range.ts";
import { slope } from "../../../accuracy/ladders/tones.ts";
import { captureSheet } from "../../../fixtures/captured-sheet.ts";
import { edited } from "../../../fixtures/edits.ts";
import { contextOf, pictureOf } from "../../../fixtures/pictures.ts";
import { presentOf, reasonOf } from "../../../fixtures/readings.ts";

const SIDE = 100;

/** Grey codes in even steps from `from` to `to`, from left to right, every tone as often. */
function ramp(from: number, to: number) {
  const codes = new Uint8Array(SIDE * SIDE * 3);
  for (let step = 0; step < SIDE * SIDE; step++) {
    const at = (step % SIDE) * SIDE + Math.floor(step / SIDE);
    codes.fill(Math.round(from + ((to - from) * step) / (SIDE * SIDE - 1)), at * 3, at * 3 + 3);
  }
  return pictureOf(codes, SIDE, SIDE);
}

/** L* of a grey sRGB code by hand: IEC 61966-2-1, then CIE 15. */
const lightnessOfCode = (code: number) => {
  const v = code / 255;
  return 116 * Math.cbrt(v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4) - 16;
};

test("a ramp of greys from 50 to 250 has the lightness of code 249 less that of code 51, and 5 codes of headroom", () => {
  const read = presentOf(tonalRange(ramp(50, 250), null, contextOf()), "tonalRangeDeltaL");
  expect(read.value).toBeCloseTo(lightnessOfCode(249) - lightnessOfCode(51), 2);
  const headroom = (100 * 5) / 255;
  expect(read.detail).toMatchObject({
    area: "frame",
    headroom: {
      redPercent: expect.closeTo(headroom, 6),
      greenPercent: expect.closeTo(headroom, 6),
      bluePercent: expect.closeTo(headroom, 6),
    },
    footRoom: { redPercent: expect.closeTo((100 * 50) / 255, 6) },
  });
});

// Drawn: 5 L* from side to side, every tone as often, of which the outer half percent at both ends is left out.
test.each([331, 332])("noise of 0.3 L* widens a range of 5 L* by no more than 0.25 L* (seed %d)", (seed) => {
  const at = (noise: number) => {
    const { picture, outline, context } = captureSheet({ seed, noise, turnDeg: 1, bits: 16, defects: [slope(5, false)] });
    return presentOf(tonalRange(picture, outline, context), "tonalRangeDeltaL").value;
  };
  expect(at(0.3) - at(0)).toBeLessThan(0.25);
  expect(Math.abs(at(0) - 4.95)).toBeLessThan(0.1);
});

test("single stray pixels move neither range nor room", () => {
  const picture = ramp(50, 200);
  const codes = picture.codes.slice();
  codes.fill(255, 900, 903);
  const [clean, stray] = [picture, { ...picture, codes }].map((each) => presentOf(tonalRange(each, null, contextOf()), "tonalRangeDeltaL"));
  expect(stray?.value).toBeCloseTo(clean?.value ?? 0, 6);
  expect(stray?.detail?.headroom).toEqual(clean?.detail?.headroom);
});

test("more headroom is left the less a capture is exposed, channel by channel", () => {
  const { picture, outline, context } = captureSheet({ cast: [1, 0.7, 0.4], seed: 321 });
  const read = presentOf(tonalRange(picture, outline, context), "tonalRangeDeltaL");
  const headroom = read.detail?.headroom as Record<"redPercent" | "greenPercent" | "bluePercent", number>;
  expect(headroom.redPercent).toBeLessThan(headroom.greenPercent);
  expect(headroom.greenPercent).toBeLessThan(headroom.bluePercent);
  expect(read.reliability).toBe("firm");
});

test("veiling light shortens the range to that of its own ends", () => {
  const picture = ramp(20, 230);
  const veil = 0.05;
  const linear = (code: number) => picture.linearOf[0][code] as number;
  const veiled = { ...picture, linearOf: [0, 1, 2].map(() => picture.linearOf[0].map((v) => v + veil)) as never };
  const read = presentOf(tonalRange(veiled, null, contextOf()), "tonalRangeDeltaL").value;
  expect(read).toBeCloseTo(lightnessOf(linear(229) + veil) - lightnessOf(linear(21) + veil), 1);
  expect(read).toBeLessThan(presentOf(tonalRange(picture, null, contextOf()), "tonalRangeDeltaL").value);
});

test("only the picture counts where it was told from its border", () => {
  const { picture, outline, context } = captureSheet({
    print: { widthMm: 44, heightMm: 52, border: { left: 5, right: 5, top: 5, bottom: 9 }, content: "pale-wall" },
    ground: [0, 0, 0],
    seed: 322,
  });
  const inside = presentOf(tonalRange(picture, outline, context), "tonalRangeDeltaL");
  expect(inside.detail?.area).toBe("picture");
  expect(inside.value).toBeLessThan(12);
  expect(presentOf(tonalRange(picture, null, context), "tonalRangeDeltaL")).toMatchObject({
    reliability: "fair",
    note: expect.stringContaining("whole frame"),
  });
});

test("inverted codes keep the headroom as foot room", () => {
  const negative = presentOf(
    tonalRange(
      edited(ramp(50, 240), (code) => 255 - code),
      null,
      contextOf(),
    ),
    "tonalRangeDeltaL",
  );
  expect(negative.detail).toMatchObject({ footRoom: { redPercent: expect.closeTo((100 * 15) / 255, 6) } });
});

test("a picture of a few pixels is absent", () => {
  expect(reasonOf(tonalRange(pictureOf(new Uint8Array(12), 2, 2), null, contextOf()), "tonalRangeDeltaL")).toContain("too few pixels");
});
