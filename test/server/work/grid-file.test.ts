import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { derivedPath, openFolder } from "#server/collection-folder.ts";
import { readGrid, writeGrid } from "#server/work/grid-file.ts";

const sheet = { topLeft: { x: 0, y: 1 }, topRight: { x: 9, y: 1 }, bottomRight: { x: 9, y: 8 }, bottomLeft: { x: 0, y: 8 } };
const GRID = { widthPx: 3, heightPx: 2, pxPerMm: 4, data: Float32Array.of(0.1, 0.2, 0.3, 0.4, 0.5, 0.6), quad: sheet };

test("a kept grid comes back whole, and one that was kept before the share of the sheet was has none", async () => {
  const folder = openFolder(mkdtempSync(path.join(tmpdir(), "solander-grid-")));
  const file = derivedPath(folder, 1, "grid.bin");
  onTestFinished(() => rmSync(folder.root, { recursive: true, force: true }));
  mkdirSync(path.dirname(file), { recursive: true });
  const whole = { ...GRID, shareOfSheet: 0.6, blur: { sheet, varianceMm2: 0.01 } };
  await writeGrid(folder, 1, whole);
  expect(await readGrid(folder, 1)).toEqual(whole);
  const bytes = readFileSync(file);
  writeFileSync(file, Buffer.concat([bytes.subarray(0, 8 * 20), bytes.subarray(8 * 21)]));
  expect(await readGrid(folder, 1)).toEqual({ ...GRID, blur: whole.blur });
  writeFileSync(file, Buffer.concat([bytes.subarray(0, 8 * 11), bytes.subarray(8 * 21)]));
  expect(await readGrid(folder, 1)).toEqual(GRID);
});
