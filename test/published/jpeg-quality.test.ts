import sharp from "sharp";
import { expect, test } from "vitest";
import { fileFacts } from "#domain/measure/file/file-facts.ts";
import { K1, K2, nearestQuality, scaledTable } from "#domain/measure/file/jpeg-quality.ts";
import { jpegTables } from "#domain/measure/file/jpeg-tables.ts";
import { random } from "../fixtures/picture-scenes.ts";
import { contextOf, pictureOf } from "../fixtures/pictures.ts";
import { presentOf } from "../fixtures/readings.ts";

const sum = (table: readonly number[]) => table.reduce((total, entry) => total + entry, 0);

test("the tables of ITU-T T.81 Annex K add up to 3688 and 5505", () => {
  expect([K1.length, K2.length]).toEqual([64, 64]);
  expect([sum(K1), sum(K2)]).toEqual([3688, 5505]);
});

// Independent JPEG Group scaling: S = 200 - 2 Q from 50 on, 5000 / Q below; sums by that arithmetic.
test.each([
  [50, [16, 11, 10, 16, 24, 40, 51, 61], 3688, 5505],
  [75, [8, 6, 5, 8, 12, 20, 26, 31], 1858, 2780],
  [85, [5, 3, 3, 5, 7, 12, 15, 18], 1109, 1666],
  [90, [3, 2, 2, 3, 5, 8, 10, 12], 736, 1110],
  [95, [2, 1, 1, 2, 2, 4, 5, 6], 369, 558],
  [98, [1, 1, 1, 1, 1, 2, 2, 2], 151, 224],
  [100, [1, 1, 1, 1, 1, 1, 1, 1], 64, 64],
])("quality %d makes the published first row and sums", (quality, firstRow, luminance, colour) => {
  expect(scaledTable(K1, quality).slice(0, 8)).toEqual(firstRow);
  expect([sum(scaledTable(K1, quality)), sum(scaledTable(K2, quality))]).toEqual([luminance, colour]);
});

async function fileOf(options: Parameters<ReturnType<typeof sharp>["jpeg"]>[0]): Promise<Uint8Array> {
  const pixels = Uint8Array.from({ length: 64 * 48 * 3 }, (_, index) => 255 * random(index, 1, 2));
  return sharp(pixels, { raw: { width: 64, height: 48, channels: 3 } })
    .jpeg(options)
    .toBuffer();
}

// Another library wrote the file; its quality setting is the Independent JPEG Group's.
test.each([12, 50, 75, 85, 90, 95, 100])("a file written by another library at quality %d reads exactly that", async (quality) => {
  const jpegHeader = await fileOf({ quality, chromaSubsampling: "4:2:0" });
  const read = presentOf(
    fileFacts(pictureOf(Uint8Array.of(1, 2, 3), 1, 1), null, contextOf({ fileKind: "jpeg", jpegHeader })),
    "jpegQuality",
  );
  expect(read).toMatchObject({
    value: quality,
    reliability: "firm",
    detail: { exact: true, colourTableFits: true, sampling: "2×2 1×1 1×1" },
  });
  expect(read.note).toBeUndefined();
});

test("a progressive file without colour subsampling is read likewise", async () => {
  const tables = jpegTables(await fileOf({ quality: 80, progressive: true, chromaSubsampling: "4:4:4" }));
  expect(tables).toMatchObject({ sampling: "1×1 1×1 1×1", isProgressive: true });
  expect(nearestQuality(tables?.luminance ?? [])).toEqual({ quality: 80, difference: 0 });
});

test("tables of a device's own are reported as the nearest quality, and said to be so", async () => {
  const jpegHeader = await fileOf({ quality: 80, quantisationTable: 3 });
  const read = presentOf(
    fileFacts(pictureOf(Uint8Array.of(1, 2, 3), 1, 1), null, contextOf({ fileKind: "jpeg", jpegHeader })),
    "jpegQuality",
  );
  expect(read).toMatchObject({ reliability: "fair", note: expect.stringContaining("tables of its own"), detail: { exact: false } });
});
