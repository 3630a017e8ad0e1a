import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { kindOfFile } from "#server/images/kind-of-file.ts";
import { READING, sharp } from "#server/images/policy.ts";
import { fileOf, sample } from "../../fixtures/image-files.ts";
import { drawRaw } from "../../fixtures/raw-file.ts";

test.each([
  ["good/orient1.jpg", "jpeg"],
  ["good/rgb16.tif", "tiff"],
  ["good/gray16-be.tif", "tiff"],
  ["good/plain.webp", "webp"],
  ["good/plain.avif", "avif"],
  ["good/plain.heic", "heic"],
  ["broken/truncated.png", "png"],
])("%s is told by its bytes, whatever its name says", async (name, kind) => {
  expect(await kindOfFile(fileOf(readFileSync(sample(name)), "holiday.txt"))).toEqual({ kind });
});

test("a DNG is told from a TIFF", async () => {
  expect(
    await kindOfFile(
      fileOf(
        drawRaw(4, 4, () => 0.5),
        "scan.tif",
      ),
    ),
  ).toEqual({ kind: "raw" });
});

test.each([
  ["GIF89a......", "a GIF picture"],
  ["%PDF-1.7 ....", "a PDF document"],
  ["PK\x03\x04....", "a packed folder (ZIP) or an office document"],
  ["<svg xmlns='http://www.w3.org/2000/svg'/>", "a drawing (SVG)"],
  ["\0\0\0\x18ftypmp42\0\0\0\0isommp42", "a video or another kind of media file"],
  ["Dear Ada, here are the", null],
  ["\xff", null],
])("%j named .jpg is no picture that is taken in", async (bytes, other) => {
  expect(await kindOfFile(fileOf(Buffer.from(bytes, "latin1"), "picture.jpg"))).toEqual({ kind: null, other });
});

const SVG = "<svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'><rect width='9' height='9'/></svg>";

/** Which decoder each kind of bytes may reach is a promise: a new version of the library must not widen it unseen. */
test.each([
  ["jpeg", () => readFileSync(sample("good/orient1.jpg")), true],
  [
    "png",
    () =>
      sharp({ create: { width: 2, height: 2, channels: 3, background: "red" } })
        .png()
        .toBuffer(),
    true,
  ],
  ["webp", () => readFileSync(sample("good/plain.webp")), true],
  ["avif", () => readFileSync(sample("good/plain.avif")), true],
  ["tiff", () => readFileSync(sample("good/rgb16.tif")), true],
  ["svg", () => Buffer.from(SVG), false],
  [
    "gif",
    () =>
      sharp({ create: { width: 2, height: 2, channels: 3, background: "red" } })
        .gif()
        .toBuffer(),
    false,
  ],
  ["ppm", () => Buffer.from("P6 1 1 255\nabc"), false],
] as const)("of all decoders of the image library, the one for %s is open: see the last column", async (_, bytes, open) => {
  const read = sharp(await bytes(), READING)
    .raw()
    .toBuffer();
  if (open) expect((await read).length).toBeGreaterThan(0);
  else await expect(read).rejects.toThrow("unsupported image format");
});
