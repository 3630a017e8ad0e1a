import { expect, test } from "vitest";
import { guessMethod } from "#domain/capture/guess-method.ts";

const nothing = { fileSource: null, focalLengthMm: null, focalLength35Mm: null };

test.each([
  ["a file that says it is of a scanner of prints", { ...nothing, fileSource: 2 }, "jpeg", null, "flatbed-scanner"],
  ["a lens of 4 mm", { ...nothing, fileSource: 3, focalLengthMm: 4.25 }, "jpeg", 72, "phone-camera"],
  ["a lens of 60 mm", { ...nothing, fileSource: 3, focalLengthMm: 60 }, "jpeg", 72, "copy-stand-camera"],
  ["a lossless file of 600 ppi without a camera", nothing, "tiff", 600, "flatbed-scanner"],
  ["a lossless file of 72 ppi", nothing, "png", 72, null],
  ["a JPEG of 300 ppi, which editors write by habit", nothing, "jpeg", 300, null],
  ["a lossless file of a camera without its lens", { ...nothing, fileSource: 3 }, "tiff", 300, null],
  ["nothing at all", nothing, "webp", null, null],
] as const)("%s", (_, hints, kind, ppi, method) => {
  expect(guessMethod(hints, kind, ppi)).toBe(method);
});
