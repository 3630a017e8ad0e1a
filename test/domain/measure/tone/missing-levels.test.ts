import { expect, test } from "vitest";
import { fileClaimsOf } from "#domain/capture/file-claims.ts";
import type { Picture } from "#domain/measure/picture.ts";
import { missingLevels } from "#domain/measure/tone/missing-levels.ts";
import { climb, readValue } from "../../../accuracy/ladder.ts";
import { combLadder } from "../../../accuracy/ladders/comb.ts";
import { rankCorrelation } from "../../../accuracy/statistics.ts";
import { edited } from "../../../fixtures/edits.ts";
import { random } from "../../../fixtures/picture-scenes.ts";
import { contextOf, pictureOf } from "../../../fixtures/pictures.ts";
import { presentOf, reasonOf } from "../../../fixtures/readings.ts";

const WIDTH = 500;
const HEIGHT = 400;

/** Codes that thin out towards both ends, so that no level is missing. */
function toned(bits: 8 | 16 = 8, seed = 5): Picture {
  const levels = bits === 8 ? 256 : 65536;
  const make = (_: unknown, index: number) => Math.floor((levels * (random(index, 1, seed) + random(index, 2, seed))) / 2);
  const length = WIDTH * HEIGHT * 3;
  return pictureOf(bits === 8 ? Uint8Array.from({ length }, make) : Uint16Array.from({ length }, make), WIDTH, HEIGHT);
}

const png = contextOf({ fileKind: "png" });
const read = (picture: Picture, context = png) => presentOf(missingLevels(picture, null, context), "missingLevelsPercent");

test("an untouched picture misses no level, and that is said to prove nothing", () => {
  for (const bits of [8, 16] as const)
    expect(read(toned(bits))).toMatchObject({ value: 0, note: expect.stringContaining("proves nothing") });
});

// A gain g leaves one level in every g / (g - 1) empty, and below 1 puts two on one in every g / (1 - g).
test.each([
  [1.1, 100 * (1 - 1 / 1.1)],
  [1.2, 100 * (1 - 1 / 1.2)],
  [1.5, 100 / 3],
  [3, 200 / 3],
  [0.9, 100 / 9],
  [0.8, 25],
])("a gain of %d in 8 bits reads as %d percent", (gain, expected) => {
  const { value, detail } = read(edited(toned(), (code) => 128 + gain * (code - 128)));
  expect(Math.abs(value - expected)).toBeLessThan(0.12 * expected + 0.5);
  expect(gain > 1 ? detail?.doubledLevels : detail?.emptyLevels).toBe(0);
});

test("an edit of one channel alone shows", () => {
  const picture = toned();
  const all = edited(picture, (code) => 1.2 * code);
  const codes = picture.codes.slice();
  for (let at = 2; at < codes.length; at += 3) codes[at] = all.codes[at] as number;
  expect(read({ ...picture, codes }).value).toBeGreaterThan(14);
});

test("8 bits that were edited and then stored in 16 are found; an edit in 16 bits leaves no mark and is no fault", () => {
  const in8 = edited(toned(), (code) => 1.2 * code);
  const stored = pictureOf(
    Uint16Array.from(in8.codes, (code) => code * 257),
    WIDTH,
    HEIGHT,
  );
  expect(read(stored).value).toBeGreaterThan(14);
  expect(read(edited(toned(16), (code) => 1.2 * code)).value).toBe(0);
});

test("a pile at an end of the scale is clipping, not a missing level", () => {
  const picture = edited(toned(), (code) => (code > 200 ? 255 : code));
  expect(read(picture).value).toBe(0);
});

test("two plain tones far apart have no levels between them that could be missing", () => {
  const codes = Uint8Array.from({ length: WIDTH * HEIGHT * 3 }, (_, at) => (at % 2 ? 190 : 30) + Math.floor(40 * random(at, 1, 6)));
  expect(read(pictureOf(codes, WIDTH, HEIGHT)).value).toBe(0);
});

test("in a JPEG a comb still tells, but none is absent", () => {
  const jpeg = contextOf({ fileKind: "jpeg" });
  expect(
    read(
      edited(toned(), (code) => 1.2 * code),
      jpeg,
    ).value,
  ).toBeGreaterThan(14);
  expect(reasonOf(missingLevels(toned(), null, jpeg), "missingLevelsPercent")).toContain("a lossless file would");
});

test("too few pixels or too few levels are absent with a reason", () => {
  expect(reasonOf(missingLevels(pictureOf(new Uint8Array(12), 2, 2), null, png), "missingLevelsPercent")).toContain("too few");
  const plain = edited(toned(), (code) => 100 + code / 16);
  expect(reasonOf(missingLevels(plain, null, png), "missingLevelsPercent")).toContain("too few");
});

test("the ladder of edits in 8 bits is followed", () => {
  const rungs = climb(combLadder, [311], [1, 1.1, 1.5]);
  const pairs = rungs.map(({ level, measured }) => [level, readValue(measured, "missingLevelsPercent")] as const);
  expect(rankCorrelation(pairs)).toBe(1);
  for (const [level, value] of pairs) expect(Math.abs(value - (combLadder.reads[0]?.truth(level, 311) ?? 0))).toBeLessThan(3);
});

test("JPEG data in a TIFF fills gaps as any JPEG does, so that no comb is no reading", () => {
  const fileClaims = fileClaimsOf({}, {}, { fileWidthPx: WIDTH, fileHeightPx: HEIGHT, tiffCompression: 7 });
  const held = contextOf({ fileKind: "tiff", fileClaims });
  expect(reasonOf(missingLevels(toned(), null, held), "missingLevelsPercent")).toMatch(/compression fills gaps/);
  expect(read(toned(), contextOf({ fileKind: "tiff" })).value, "a TIFF of another compression").toBe(0);
});
