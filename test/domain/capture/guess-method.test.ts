import { expect, test } from "vitest";
import { guessMethod } from "#domain/capture/guess-method.ts";

const nothing = { fileSource: null, focalLengthMm: null, focalLength35Mm: null, device: "" };

test.each([
  ["a file that says it is of a scanner of prints", { ...nothing, fileSource: 2 }, "jpeg", null, "flatbed-scanner"],
  ["a lens of 4 mm", { ...nothing, fileSource: 3, focalLengthMm: 4.25 }, "jpeg", 72, "phone-camera"],
  ["a lens of 60 mm", { ...nothing, fileSource: 3, focalLengthMm: 60 }, "jpeg", 72, "copy-stand-camera"],
  [
    "a phone's tele lens: 15.7 mm that stand for 120 mm",
    { ...nothing, focalLengthMm: 15.7, focalLength35Mm: 120 },
    "jpeg",
    72,
    "phone-camera",
  ],
  [
    "a camera's wide lens: 10 mm that stand for 15 mm",
    { ...nothing, focalLengthMm: 10, focalLength35Mm: 15 },
    "jpeg",
    72,
    "copy-stand-camera",
  ],
  [
    "a lens of 60 mm whose other length is written as 0",
    { ...nothing, focalLengthMm: 60, focalLength35Mm: 0 },
    "jpeg",
    72,
    "copy-stand-camera",
  ],
  ["a lens of 18 mm alone, which may be either's", { ...nothing, focalLengthMm: 18 }, "raw", 72, null],
  ["a sensor between a phone's and a camera's", { ...nothing, focalLengthMm: 25.7, focalLength35Mm: 70 }, "jpeg", 72, null],
  ["a device that calls itself a flatbed", { ...nothing, device: "Flatbed scanner" }, "jpeg", 600, "flatbed-scanner"],
  ["a lossless file of 600 ppi without a camera", nothing, "tiff", 600, "flatbed-scanner"],
  ["a lossless file of 72 ppi", nothing, "png", 72, null],
  ["a JPEG of 300 ppi, which editors write by habit", nothing, "jpeg", 300, null],
  ["a lossless file of a camera without its lens", { ...nothing, fileSource: 3 }, "tiff", 300, null],
  ["nothing at all", nothing, "webp", null, null],
] as const)("%s", (_, hints, kind, ppi, method) => {
  expect(guessMethod(hints, kind, ppi)).toBe(method);
});
