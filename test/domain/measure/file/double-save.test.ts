import sharp from "sharp";
import { beforeAll, describe, expect, test } from "vitest";
import { doubleSave } from "#domain/measure/file/double-save.ts";
import { doubleSaveLadder } from "../../../accuracy/ladders/double-save.ts";
import { captureSheet, SMALL } from "../../../fixtures/captured-sheet.ts";
import { contextOf, pictureOf } from "../../../fixtures/pictures.ts";
import { presentOf, reasonOf } from "../../../fixtures/readings.ts";

let drawn: Buffer;

beforeAll(async () => {
  const { picture } = captureSheet({ print: { ...SMALL, content: "scene" }, ppi: 260, noise: 0.8, seed: 501 });
  const raw = { width: picture.widthPx, height: picture.heightPx, channels: 3 as const };
  drawn = await sharp(picture.codes, { raw }).png().toBuffer();
});

/** Saved by another library at one quality after the other. */
async function saved(...qualities: number[]): Promise<Buffer> {
  let file = drawn;
  for (const quality of qualities) file = await sharp(file).jpeg({ quality }).toBuffer();
  return file;
}

async function read(file: Buffer, change: (image: ReturnType<typeof sharp>) => ReturnType<typeof sharp> = (image) => image) {
  const { data, info } = await change(sharp(file)).raw().toBuffer({ resolveWithObject: true });
  return doubleSave(pictureOf(new Uint8Array(data), info.width, info.height), null, contextOf({ fileKind: "jpeg", jpegHeader: file }));
}

describe("a JPEG that another library saved", () => {
  test.each([70, 83, 91, 94])("once, at quality %d, gives no hint of a second save", async (quality) => {
    const reading = presentOf(await read(await saved(quality)), "doubleSaveSigma");
    expect(reading.value).toBeLessThan(3);
    expect(reading).toMatchObject({ reliability: "weak", note: expect.stringContaining("proves little"), detail: { hint: false } });
  });

  test.each([
    [70, 88],
    [78, 91],
    [65, 94],
  ])("at %d and then at %d gives the hint", async (first, second) => {
    const reading = presentOf(await read(await saved(first, second)), "doubleSaveSigma");
    expect(reading.value).toBeGreaterThan(3);
    expect(reading.note).toContain("at least twice");
  });

  test("twice is found also after the picture was turned upright, and in a part of a bed", async () => {
    const file = await saved(70, 90);
    const turned = presentOf(await read(file, (image) => image.rotate(90)), "doubleSaveSigma");
    expect(turned.value).toBeGreaterThan(3);
    expect(turned.detail).toMatchObject({ blocksTurned: true });
    const part = presentOf(await read(file, (image) => image.extract({ left: 13, top: 22, width: 500, height: 520 })), "doubleSaveSigma");
    expect(part.value).toBeGreaterThan(3);
    expect(part.detail).toMatchObject({ blocksFromLeftPx: 3, blocksFromTopPx: 2 });
  });
});

test("what is no JPEG, has no tables, no blocks or is plain is absent with a reason", async () => {
  const picture = pictureOf(new Uint8Array(64 * 64 * 3).fill(90), 64, 64);
  const reason = (fileKind: string, jpegHeader: Uint8Array | null) =>
    reasonOf(doubleSave(picture, null, contextOf({ fileKind, jpegHeader })), "doubleSaveSigma");
  expect(reason("tiff", null)).toContain("no JPEG");
  expect(reason("jpeg", null)).toContain("tables");
  const file = await saved(80);
  expect(reason("jpeg", file)).toContain("could not be found");
  const resized = await read(file, (image) => image.resize(333));
  expect(reasonOf(resized, "doubleSaveSigma")).toContain("could not be found");
});

test("on the ladder every first save that was clearly coarser gives the hint, and one save alone does not", () => {
  for (const level of [0, 17, 32]) {
    const { picture, context } = doubleSaveLadder.draw(level, 502);
    const { value } = presentOf(doubleSave(picture, null, context), "doubleSaveSigma");
    if (level === 0) expect(value).toBeLessThan(3);
    else expect(value).toBeGreaterThan(3);
  }
});
