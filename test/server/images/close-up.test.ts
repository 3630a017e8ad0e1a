import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import sharp from "sharp";
import { expect, onTestFinished, test } from "vitest";
import { CLOSE_UP_PX, closeUp } from "#server/images/close-up.ts";

/** White, but for one black block of 20 × 20 px from (300, 200) on. */
async function markedFile() {
  const folder = mkdtempSync(path.join(tmpdir(), "solander-close-up-"));
  onTestFinished(() => rmSync(folder, { recursive: true }));
  const file = path.join(folder, "marked.png");
  const block = await sharp({ create: { width: 20, height: 20, channels: 3, background: "#000" } })
    .png()
    .toBuffer();
  await sharp({ create: { width: 900, height: 700, channels: 3, background: "#fff" } })
    .composite([{ input: block, left: 300, top: 200 }])
    .png()
    .toFile(file);
  return { path: file, kind: "png" } as const;
}

const lightness = async (jpeg: Buffer) => {
  const { data, info } = await sharp(jpeg).greyscale().raw().toBuffer({ resolveWithObject: true });
  expect([info.width, info.height]).toEqual([CLOSE_UP_PX, CLOSE_UP_PX]);
  return (x: number, y: number) => data[(y * info.width + x) * info.channels] as number;
};

test("a close-up shows the original pixel by pixel, the place asked for in its middle", async () => {
  const at = await lightness(await closeUp(await markedFile(), { left: 0, top: 0, width: 900, height: 700 }, { x: 310, y: 210 }));
  expect(at(200, 200)).toBeLessThan(20);
  expect(at(194, 200)).toBeLessThan(20);
  expect(at(186, 200)).toBeGreaterThan(235);
  expect(at(214, 200)).toBeGreaterThan(235);
});

test("places count from the part's own corner, and beyond the part it is grey", async () => {
  const at = await lightness(await closeUp(await markedFile(), { left: 300, top: 200, width: 400, height: 400 }, { x: 10, y: 10 }));
  expect(at(200, 200)).toBeLessThan(20);
  expect(at(100, 100)).toBeGreaterThan(130);
  expect(at(100, 100)).toBeLessThan(170);
  expect(at(250, 250)).toBeGreaterThan(235);
});
