import type { CatalogueEntry } from "./entry.ts";

/** What the file itself shows, whatever is in the picture. */
export const FILE = {
  effectiveBitDepth: {
    label: "Bit depth in fact",
    unit: "bit",
    decimals: 0,
    better: "higher",
    region: "file",
    version: 2,
    meaning: "Bits per channel the values really use, whatever the file says: at most so many.",
  },
  lossless: {
    label: "Lossless file",
    unit: "",
    decimals: 0,
    better: "higher",
    region: "file",
    version: 1,
    meaning: "1 when the file keeps every value, 0 when its compression throws some away.",
  },
  jpegQuality: {
    label: "JPEG quality",
    unit: "of 100",
    decimals: 0,
    better: "higher",
    region: "file",
    version: 1,
    meaning: "Quality on the common scale, from the file's own tables.",
  },
  doubleSaveSigma: {
    label: "Signs of a second JPEG save",
    unit: "σ",
    decimals: 1,
    better: "lower",
    region: "file",
    version: 1,
    meaning:
      "How far the file's steps differ from those of a JPEG saved once, which gives 1 to 2 by chance; from 3 on it was probably saved twice, but not how coarsely.",
  },
  processingSignCount: {
    label: "Signs of processing",
    unit: "",
    decimals: 0,
    better: "lower",
    region: "file",
    version: 1,
    meaning: "How many signs there are that the file is no longer as the device wrote it.",
  },
  savedAgainCount: {
    label: "Same exposure, saved again",
    unit: "",
    decimals: 0,
    better: "fact",
    region: "picture",
    version: 1,
    meaning: "How many other captures of this side are copies of this one: resized, cropped, lightened or saved anew.",
  },
} as const satisfies Record<string, CatalogueEntry>;
