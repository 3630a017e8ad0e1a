import { type PrintFormat, UNSAID } from "../print-format.ts";

const PLATE = {
  ...UNSAID,
  group: "plate",
  processIds: ["daguerreotype", "ambrotype", "tintype"],
  period: "1839 to 1930s",
  toleranceMm: 5,
  source: "19th-century plate sizes guide by a photograph dealer; inches converted",
} as const;

const OPENING = "The plate is larger than the opening that is seen, its edge hidden under the mat; figures in cm are often rounded.";

const GLASS = { ...UNSAID, group: "plate", processIds: [], period: "1850 to 1930s", toleranceMm: 2 } as const;

export const PLATE_FORMATS: readonly PrintFormat[] = [
  {
    ...PLATE,
    id: "whole-plate",
    name: "Whole plate",
    sheetWidthMm: 165,
    sheetHeightMm: 216,
    source: `${PLATE.source}; Image Permanence Institute, Graphics Atlas (thickness of a daguerreotype plate 0.41 mm)`,
    doubt: OPENING,
  },
  {
    ...PLATE,
    id: "half-plate",
    name: "Half plate (American)",
    sheetWidthMm: 108,
    sheetHeightMm: 140,
    doubt: `${OPENING} A British half plate is 121 × 165 mm (from memory).`,
  },
  { ...PLATE, id: "quarter-plate", name: "Quarter plate", sheetWidthMm: 83, sheetHeightMm: 108, doubt: OPENING },
  { ...PLATE, id: "sixth-plate", name: "Sixth plate", sheetWidthMm: 70, sheetHeightMm: 83, doubt: OPENING },
  {
    ...PLATE,
    id: "eighth-plate",
    name: "Eighth plate",
    sheetWidthMm: 54,
    sheetHeightMm: 83,
    source: "photographic forum post listing plate sizes; inches converted",
    doubt: OPENING,
  },
  { ...PLATE, id: "ninth-plate", name: "Ninth plate", sheetWidthMm: 51, sheetHeightMm: 64, doubt: OPENING },
  {
    ...PLATE,
    id: "sixteenth-plate",
    name: "Sixteenth plate",
    sheetWidthMm: 35,
    sheetHeightMm: 41,
    source: "19th-century plate sizes guides by two photograph dealers; inches converted",
    doubt: `${OPENING} The guides differ: 35 × 41 mm (1 3/8 × 1 5/8 in) or 41 × 54 mm (1 5/8 × 2 1/8 in).`,
  },
  {
    ...PLATE,
    id: "gem-tintype",
    name: "Gem tintype",
    processIds: ["tintype"],
    period: "mid-1860s to 1880",
    sheetWidthMm: 19,
    sheetHeightMm: 25,
    toleranceMm: 4,
    source: "period: Harry Ransom Center, Photographic Formats; size from memory",
    doubt: "Usually in a paper folder, a card-size mount or jewellery.",
  },
  {
    ...GLASS,
    id: "lantern-slide-british",
    name: "Lantern slide, British",
    sheetWidthMm: 83,
    sheetHeightMm: 83,
    source: "Harry Ransom Center, Photographic Formats",
  },
  {
    ...GLASS,
    id: "lantern-slide-american",
    name: "Lantern slide, American",
    sheetWidthMm: 83,
    sheetHeightMm: 102,
    source: "Harry Ransom Center, Photographic Formats",
  },
  {
    ...UNSAID,
    group: "cut-sheet",
    id: "banquet-photograph",
    name: "Banquet photograph",
    processIds: ["gelatin-silver", "gelatin-silver-fibre"],
    period: "1913 to 1926 for one camera",
    sheetWidthMm: 432,
    sheetHeightMm: 178,
    toleranceMm: 10,
    source: "Harry Ransom Center, Photographic Formats",
    doubt: "Also 203 × 508 and 305 × 508 mm. Panoramas are usually twice as wide as high, or more.",
  },
];
