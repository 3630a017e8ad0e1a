import { expect, test } from "vitest";
import { differenceInWords, readInWords } from "#domain/aim/measure-words.ts";

test("a difference carries its sign, and is no yes, no no and no share of four sides", () => {
  expect(differenceInWords("samplingPpi", 80)).toBe("+80 ppi");
  expect(differenceInWords("keystonePercent", -4.24)).toBe("−4.24 %");
  expect(differenceInWords("lossless", 0)).toBe("0");
  expect(differenceInWords("lossless", 1)).toBe("+1");
  expect(differenceInWords("sidesSeen", -1)).toBe("−1");
});

test("signs of a second save are a figure only from where chance ends, and every other value is told as it is", () => {
  expect(readInWords("doubleSaveSigma", 1.5)).toBe("no sign found");
  expect(readInWords("doubleSaveSigma", 4.2)).toBe("4.2 σ");
  expect(readInWords("samplingPpi", 392)).toBe("392 ppi");
});
