import { CARD_FORMATS } from "./formats/cards.ts";
import { INSTANT_FORMATS } from "./formats/instant.ts";
import { PLATE_FORMATS } from "./formats/plates.ts";
import { SHEET_FORMATS } from "./formats/sheets.ts";
import { SNAPSHOT_FORMATS } from "./formats/snapshots.ts";
import type { PrintFormat } from "./print-format.ts";

export type { FormatGroup, PrintFormat } from "./print-format.ts";

/** Every format the program knows, group by group. */
export const FORMATS: readonly PrintFormat[] = [
  ...INSTANT_FORMATS,
  ...SNAPSHOT_FORMATS,
  ...SHEET_FORMATS,
  ...CARD_FORMATS,
  ...PLATE_FORMATS,
];

const byId = new Map(FORMATS.map((format) => [format.id, format]));

export const findFormat = (id: string): PrintFormat | null => byId.get(id) ?? null;

export type FittingFormat = {
  readonly format: PrintFormat;
  /** the larger of the differences of the two sides */
  readonly distanceMm: number;
  /** whether the sheet lies the other way than the format is described */
  readonly turned: boolean;
};

/**
 * Every format whose sheet agrees with a measured sheet within its tolerance, nearest first. More
 * than one may fit and size alone never decides: a person chooses.
 */
export function formatsFitting(widthMm: number, heightMm: number): FittingFormat[] {
  const fitting: FittingFormat[] = [];
  for (const format of FORMATS) {
    if (!format.matchable) continue;
    const upright = distanceIfNear(format, widthMm, heightMm);
    const lying = format.turnable ? distanceIfNear(format, heightMm, widthMm) : null;
    if (upright !== null && (lying === null || upright <= lying)) fitting.push({ format, distanceMm: upright, turned: false });
    else if (lying !== null) fitting.push({ format, distanceMm: lying, turned: true });
  }
  return fitting.sort((a, b) => a.distanceMm - b.distanceMm);
}

/** Distance in mm, or null when the sheet does not fit. */
function distanceIfNear(format: PrintFormat, widthMm: number, heightMm: number): number | null {
  const distanceMm = Math.max(Math.abs(widthMm - format.sheetWidthMm), Math.abs(heightMm - format.sheetHeightMm));
  const found = format.foundMm !== null && within(widthMm, format.foundMm.widthMm) && within(heightMm, format.foundMm.heightMm);
  return found || distanceMm <= format.toleranceMm ? distanceMm : null;
}

const within = (value: number, [least, most]: readonly [number, number]): boolean => value >= least && value <= most;
