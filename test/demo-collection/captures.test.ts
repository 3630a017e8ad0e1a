import { createHash } from "node:crypto";
import { readdirSync, readFileSync, statSync } from "node:fs";
import path from "node:path";
import exifr from "exifr";
import sharp from "sharp";
import { describe, expect, test } from "vitest";
import { matchToPrint } from "#domain/capture/match-to-print.ts";
import { METHODS } from "#domain/capture/method.ts";
import { DEMO_CAPTURES, readDemoManifest } from "../../demo-collection/read-manifest.ts";

const manifest = readDemoManifest();
const numbers = manifest.prints.map(({ objectNumber }) => objectNumber);
const sha256 = (file: string) =>
  createHash("sha256")
    .update(readFileSync(path.join(DEMO_CAPTURES, file)))
    .digest("hex");

describe("the demo's capture files", () => {
  test("are just those the manifest names, in 25 MB", () => {
    const files = readdirSync(DEMO_CAPTURES).sort();
    expect(files).toEqual(manifest.captures.map(({ file }) => file).sort());
    const bytes = files.reduce((sum, file) => sum + statSync(path.join(DEMO_CAPTURES, file)).size, 0);
    expect(bytes).toBeLessThanOrEqual(25e6);
  });

  test("are at least 72, by all four methods, a few of them with 12 to 24 million pixels", async () => {
    expect(manifest.captures.length).toBeGreaterThanOrEqual(72);
    for (const method of METHODS) expect(manifest.captures.filter((capture) => capture.method === method).length).toBeGreaterThan(9);
    const sizes = await Promise.all(manifest.captures.map(({ file }) => sharp(path.join(DEMO_CAPTURES, file)).metadata()));
    const large = sizes.filter(({ width, height }) => width * height >= 11.5e6 && width * height <= 24e6);
    expect(large.length).toBeGreaterThanOrEqual(4);
  });

  test("hold one pair with the same bytes and no other", () => {
    const copies = manifest.captures.filter(({ sameBytesAs }) => sameBytesAs !== null);
    expect(copies).toHaveLength(1);
    for (const { file, sameBytesAs } of copies) expect(sha256(file)).toBe(sha256(sameBytesAs ?? ""));
    expect(new Set(manifest.captures.map(({ file }) => sha256(file))).size).toBe(manifest.captures.length - copies.length);
  });

  test("find their print by their name, but for those that must wait in the tray", () => {
    for (const { file, prints, namesItsPrint } of manifest.captures) {
      expect(matchToPrint(file, numbers)).toBe(namesItsPrint ? prints[0] : null);
    }
    expect(manifest.captures.filter(({ namesItsPrint }) => !namesItsPrint).length).toBeGreaterThanOrEqual(5);
  });

  test("leave some prints without any, and show two at least four years apart", () => {
    const shown = new Set(manifest.captures.flatMap(({ prints }) => prints));
    expect(numbers.filter((number) => !shown.has(number)).length).toBeGreaterThanOrEqual(2);
    const apart = numbers.filter((number) => {
      const years = manifest.captures.filter(({ prints, side }) => side === "front" && prints[0] === number && prints.length === 1);
      const sameMethod = new Map<string, number[]>();
      for (const { method, takenAt } of years) sameMethod.set(method, [...(sameMethod.get(method) ?? []), Number(takenAt.slice(0, 4))]);
      return [...sameMethod.values()].some((list) => Math.max(...list) - Math.min(...list) >= 4);
    });
    expect(apart).toEqual(expect.arrayContaining(["1972.002.01", "1978.004.12"]));
  });

  test("say in EXIF when and with what they were made", async () => {
    for (const { file, takenAt, method } of manifest.captures) {
      if (file.endsWith(".tif")) continue;
      const read = await exifr.parse(path.join(DEMO_CAPTURES, file), { reviveValues: false, translateValues: false });
      expect(read.DateTimeOriginal, file).toBe(takenAt.replaceAll("-", ":").replace("T", " "));
      // EXIF 2.3, FileSource: 3 digital still camera
      expect(read.FileSource, file).toBe(method.endsWith("camera") ? 3 : undefined);
      expect(read.Make, file).toMatch(/camera$|scanner$/);
      if (method.endsWith("camera")) expect(read.ExposureTime * read.FNumber * read.ISO, file).toBeGreaterThan(0);
    }
  });

  test("hold one that must be turned upright, and its truth is that of the turned picture", async () => {
    const turned = [];
    for (const { file, truth } of manifest.captures) {
      const { width, height, orientation = 1 } = await sharp(path.join(DEMO_CAPTURES, file)).metadata();
      if (orientation === 1) continue;
      turned.push(file);
      expect(orientation).toBe(6);
      const lowest = Math.max(...truth.flatMap(({ sheetPx }) => sheetPx.map(({ y }) => y)));
      expect(width).toBeGreaterThan(height);
      expect(lowest).toBeGreaterThan(height);
      expect(lowest).toBeLessThan(width);
    }
    expect(turned).toHaveLength(1);
  });

  test("hold lossless files fit to be preservation masters, two of them with 16 bits", async () => {
    const fit = [];
    for (const { file, truth, prints } of manifest.captures) {
      const [print] = truth;
      if (prints.length > 1 || !print || !/\.(png|tif)$/.test(file)) continue;
      const { depth } = await sharp(path.join(DEMO_CAPTURES, file)).metadata();
      // 98 % of 400 ppi, the least of FADGI 2016, table Prints and Photographs, with its tolerance of 2 %
      if (Math.min(print.ppiX, print.ppiY) < 392 || print.sidesInFrame < 4 || print.clippedHighlightsPercent > 0.1) continue;
      fit.push({ number: prints[0], depth });
    }
    expect(new Set(fit.map(({ number }) => number)).size).toBeGreaterThanOrEqual(4);
    expect(fit.filter(({ depth }) => depth === "ushort").length).toBeGreaterThanOrEqual(2);
  });
});
