import path from "node:path";
import sharp from "sharp";
import { expect, test } from "vitest";
import { emptyFolder, solander } from "./command-line.ts";

/** Light that falls by a fifth from left to right over plain paper; with a black bar, something else lies in the frame. */
async function sheetFile(hasBar: boolean): Promise<string> {
  const file = path.join(emptyFolder(), "sheet.png");
  const grey = Buffer.alloc(300 * 200 * 3);
  for (let at = 0; at < grey.length; at++) {
    const x = Math.floor(at / 3) % 300;
    grey[at] = hasBar && x > 140 && x < 160 ? 0 : 215 - Math.round((20 * x) / 300);
  }
  await sharp(grey, { raw: { width: 300, height: 200, channels: 3 } })
    .png()
    .toFile(file);
  return file;
}

test("an even sheet tells evenness and nothing else", async () => {
  const { code, answer } = await solander(["target", await sheetFile(false), "--even-sheet"]);
  expect(code).toBe(0);
  expect(answer).toMatch(/^Evenness over the field: \d\.\d %\n$/);
});

test("a sheet with something on it is refused with what to do", async () => {
  const { code, told } = await solander(["target", await sheetFile(true), "--even-sheet"]);
  expect(code).toBe(1);
  expect(told).toContain("Something else than plain paper is in the picture");
  expect(told).toContain("Take a larger sheet");
});

test("a plain sheet has no layout and no reference values", async () => {
  const { code, told } = await solander(["target", await sheetFile(false), "--even-sheet", "--layout", "x.json"]);
  expect(code).toBe(2);
  expect(told).toContain("--even-sheet goes without --layout and --reference");
});

test("a target that is not found says how to set its corners, and corners that are none name their option", async () => {
  const file = await sheetFile(false);
  const notFound = await solander(["target", file]);
  expect(notFound.code).toBe(1);
  expect(notFound.told).toContain("The target was not found in the picture.");
  expect(notFound.told).toContain("set its corners by hand");
  const malformed = await solander(["target", file, "--corners", "1,2 3,4"]);
  expect(malformed.code).toBe(2);
  expect(malformed.told).toContain("Write --corners as four pairs of pixels");
  const outside = await solander(["target", file, "--corners", "0,0 5000,0 5000,190 0,190"]);
  expect(outside.code).toBe(1);
  expect(outside.told).toContain("--corners: A corner lies outside the picture.");
  const nothing = await solander(["target", file, "--corners", "10,10 150,10 150,190 10,190"]);
  expect(nothing.told).toContain("--corners: With these corners nothing of the target can be read.");
});
