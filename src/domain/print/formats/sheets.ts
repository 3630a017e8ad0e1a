import { type PrintFormat, UNSAID } from "../print-format.ts";

const SHEET = { ...UNSAID, group: "cut-sheet", period: "20th century to present" } as const;

const PAPER_PROCESSES = ["gelatin-silver", "gelatin-silver-fibre", "gelatin-silver-resin-coated", "chromogenic", "inkjet"];

/** Sizes in inches named by the short side: `nR` is n × (n + 2) in up to 10 in and n × (n + 3) in from 11 in; `S` marks the longer series. */
const NAMED_SHEETS: readonly (readonly [name: string, inches: string, widthMm: number, heightMm: number])[] = [
  ["3R", "3.5 × 5 in", 89, 127],
  ["4R", "4 × 6 in", 102, 152],
  ["5R", "5 × 7 in", 127, 178],
  ["6R", "6 × 8 in", 152, 203],
  ["8R", "8 × 10 in", 203, 254],
  ["S8R", "8 × 12 in", 203, 305],
  ["10R", "10 × 12 in", 254, 305],
  ["11R", "11 × 14 in", 279, 356],
  ["12R", "12 × 15 in", 305, 381],
];

const OTHER_SHEETS: readonly (readonly [id: string, name: string, widthMm: number, heightMm: number])[] = [
  ["sheet-16x20in", "Cut sheet 16 × 20 in", 406, 508],
  ["sheet-20x24in", "Cut sheet 20 × 24 in", 508, 610],
  ["sheet-30x40cm", "Cut sheet 30 × 40 cm", 300, 400],
  ["sheet-24x30cm", "Cut sheet 24 × 30.5 cm", 240, 305],
  ["sheet-a4", "Cut sheet A4", 210, 297],
  ["sheet-a3", "Cut sheet A3", 297, 420],
];

export const SHEET_FORMATS: readonly PrintFormat[] = [
  ...NAMED_SHEETS.map(([name, inches, sheetWidthMm, sheetHeightMm]) => ({
    ...SHEET,
    id: `sheet-${name.toLowerCase()}`,
    name: `Cut sheet ${name} (${inches})`,
    processIds: [...PAPER_PROCESSES, "dye-destruction"],
    sheetWidthMm,
    sheetHeightMm,
    border: "depends on the easel",
    toleranceMm: 2,
    source: "open encyclopedia, standard photographic print sizes; inches converted",
    doubt: "ISO 1008:1992 states the sizes of sheets in mm with a cutting tolerance; its tables were not read.",
  })),
  ...OTHER_SHEETS.map(([id, name, sheetWidthMm, sheetHeightMm]) => ({
    ...SHEET,
    id,
    name,
    processIds: PAPER_PROCESSES,
    sheetWidthMm,
    sheetHeightMm,
    toleranceMm: 3,
    source: "from memory",
    doubt: "Nominal size; ISO 1008:1992 was not read.",
  })),
];
