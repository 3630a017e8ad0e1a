import type { CatalogueEntry } from "./entry.ts";

/** What lies on the print or the glass, or comes of their touching. */
export const SURFACE = {
  ringAreaPercent: {
    label: "Interference rings",
    unit: "%",
    decimals: 1,
    better: "lower",
    region: "picture",
    version: 3,
    meaning: "Share of the picture with fringes that turn and crowd as light between print and glass makes them (Newton's rings).",
  },
  dustPerCm2: {
    label: "Dust",
    unit: "/cm²",
    decimals: 2,
    better: "lower",
    region: "border",
    version: 3,
    meaning:
      "Specks on each cm²: of the plain border from one capture, of the whole picture where captures are compared and only one shows them.",
  },
  scratchLengthMm: {
    label: "Longest hair or scratch",
    unit: "mm",
    decimals: 1,
    better: "lower",
    region: "border",
    version: 3,
    meaning: "Length of the longest thin line on the plain border, or, where captures are compared, of one that only this capture shows.",
  },
} as const satisfies Record<string, CatalogueEntry>;
