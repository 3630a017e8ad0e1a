import { writeFileSync } from "node:fs";
import path from "node:path";
import sharp from "sharp";
import { expect, test } from "vitest";
import { targetLayout } from "#domain/target/layout.ts";
import { drawTarget } from "../../fixtures/drawn-target.ts";
import { codesAsImage } from "../../fixtures/image-files.ts";
import { emptyFolder, problemsOf, solander } from "./command-line.ts";

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
  expect(answer).toMatch(
    /^Evenness over the field: \d\.\d %\. Standard deviation over mean of the lightness .*\. Over the whole frame: lightest .*, darkest .*\.\n$/,
  );
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

/** One grey and one edge, exposed right, with a layout and a list of values beside it. */
async function targetFiles() {
  const folder = emptyFolder();
  const layout = {
    name: "One grey, one edge",
    sheet: { widthMm: 40, heightMm: 30 },
    patches: [{ id: "G1", leftMm: 3, topMm: 8, widthMm: 10, heightMm: 12 }],
    neutrals: ["G1"],
    edges: [{ id: "edge", leftMm: 19, topMm: 7, widthMm: 16, heightMm: 16 }],
  };
  const { picture } = drawTarget(targetLayout.parse(layout), new Map([["G1", [60, 0, 0]]]));
  const [file, layoutFile, reference] = ["target.png", "layout.json", "values.txt"].map((name) => path.join(folder, name)) as [
    string,
    string,
    string,
  ];
  writeFileSync(file, await codesAsImage(picture.codes, picture.widthPx, picture.heightPx, 3).png().toBuffer());
  writeFileSync(layoutFile, JSON.stringify(layout));
  const values = "BEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\nG1 63 0 0\nEND_DATA\n";
  writeFileSync(reference, `CGATS.17\n${values}`);
  return [file, "--layout", layoutFile, "--reference", reference];
}

test("a target is answered to programs as the schema says, with the grey 3 ΔL* darker than its reference and the edge as soft as drawn", async () => {
  const { code, answer } = await solander(["target", ...(await targetFiles()), "--json"]);
  expect(code).toBe(0);
  const report = JSON.parse(answer);
  expect(problemsOf("target-report", report)).toEqual([]);
  // the schema can fail
  expect(problemsOf("target-report", { ...report, ppi: "254" })).not.toEqual([]);
  const value = (name: string) => report.readings.find((reading: { name: string }) => reading.name === name)?.value;
  expect(value("toneResponseDeltaL")).toBeCloseTo(3, 1);
  // 0.7 px of blur: 53.5 % of half the sampling
  expect(Math.abs(value("targetSfr50SharePercent") / 53.54 - 1)).toBeLessThan(0.03);
});

test("a target is answered to people a figure a line, and its edges with their places", async () => {
  const { answer } = await solander(["target", ...(await targetFiles())]);
  expect(answer).toMatch(/^Sampling: 25[345] x 25[345] ppi\nTone response: 3\.0 ΔL\*\. [^\n]+\n/);
  expect(answer).toMatch(/\n {2}edge \(\w[\w ]*, across\): SFR 50 % at 2\.\d\d cy\/mm, 10 % at 4\.\d\d cy\/mm\n/);
});
