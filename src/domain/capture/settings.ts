import { z } from "zod";
import type { CaptureSettings } from "./capture.ts";

/** EXIF is a stranger's input: whatever does not fit is as if it had not been said. */
const line = z
  .string()
  .transform((text) =>
    text
      .replaceAll(/[\p{Cc}\s]+/gu, " ")
      .trim()
      .slice(0, 200),
  )
  .pipe(z.string().min(1))
  .nullable()
  .catch(null);
const between = (least: number, most: number) => z.number().min(least).max(most).nullable().catch(null);

const zone = z
  .string()
  .regex(/^([+-]\d{2}:\d{2}|Z)$/)
  .nullable()
  .catch(null);

const tags = z.object({
  Make: line,
  Model: line,
  LensModel: line,
  Software: line,
  ExposureTime: between(1e-6, 100_000),
  FNumber: between(0.3, 1000),
  ISO: between(1, 10_000_000),
  FocalLength: between(0.1, 5000),
  FocalLengthIn35mmFormat: between(1, 10_000),
  FileSource: z.preprocess((value) => (value instanceof Uint8Array ? value[0] : value), z.number().int().nullable().catch(null)),
  DateTimeOriginal: line,
  OffsetTimeOriginal: zone,
  CreateDate: line,
  OffsetTimeDigitized: zone,
  XResolution: between(1, 100_000),
  YResolution: between(1, 100_000),
  ResolutionUnit: z.number().int().catch(2),
});

/** XMP writes numbers as text, fractions of two whole numbers among them: "1/125" (ISO 16684-1, EXIF's RATIONAL in XMP). */
const rational = (least: number, most: number) => z.preprocess(plainNumber, between(least, most));

function plainNumber(said: unknown): unknown {
  const first = Array.isArray(said) ? said[0] : said;
  const parts = typeof first === "string" ? /^\s*(\d{1,12}(?:\.\d{1,12})?)(?:\/(\d{1,12}))?\s*$/.exec(first) : null;
  if (!parts) return first;
  return Number(parts[1]) / Number(parts[2] ?? 1);
}

/** What XMP may say where EXIF is silent; its tags carry the zone within the moment. */
const xmpTags = z.object({
  Make: line,
  Model: line,
  LensModel: line,
  Lens: line,
  CreatorTool: line,
  DateTimeOriginal: line,
  CreateDate: line,
  ExposureTime: rational(1e-6, 100_000),
  FNumber: rational(0.3, 1000),
  ISOSpeedRatings: rational(1, 10_000_000),
  PhotographicSensitivity: rational(1, 10_000_000),
  FocalLength: rational(0.1, 5000),
  XResolution: rational(1, 100_000),
  YResolution: rational(1, 100_000),
  ResolutionUnit: z.preprocess(plainNumber, z.number().int().catch(2)),
});

/** Clocks that were never set start in years before digital pictures were made (common practice, no source). */
const FIRST_YEAR = 1980;

export type ClaimedPpi = { readonly x: number; readonly y: number };

export type MethodHints = {
  readonly fileSource: number | null;
  readonly focalLengthMm: number | null;
  readonly focalLength35Mm: number | null;
  /** maker and model as the file names them */
  readonly device: string;
};

/**
 * Settings from EXIF tags by name (CIPA DC-008, numbers not translated), in typed units, and from XMP
 * (ISO 16684-1) where EXIF does not say them. The capture time is when the picture was taken, else when it
 * was digitised, and gets a zone only where the file says one. Position is never read. The tool that XMP names
 * is written down as software and trusted for nothing. What XMP claims of pixels per inch stands apart, since a
 * file's own head knows better than words that were copied from file to file.
 */
export function settingsOf(
  exif: Readonly<Record<string, unknown>>,
  xmp: Readonly<Record<string, unknown>> = {},
): { settings: CaptureSettings; hints: MethodHints; ppiFromXmp: ClaimedPpi | null } {
  const read = tags.parse(Object.fromEntries(Object.keys(tags.shape).map((name) => [name, exif[name] ?? null])));
  const beside = xmpTags.parse(Object.fromEntries(Object.keys(xmpTags.shape).map((name) => [name, xmp[name] ?? null])));
  const claimed = perInch(read);
  const focalLengthMm = read.FocalLength ?? beside.FocalLength;
  return {
    settings: {
      capturedAt:
        isoMoment(read.DateTimeOriginal, read.OffsetTimeOriginal) ??
        isoMoment(read.CreateDate, read.OffsetTimeDigitized) ??
        isoMoment(beside.DateTimeOriginal) ??
        isoMoment(beside.CreateDate),
      deviceMake: read.Make ?? beside.Make,
      deviceModel: read.Model ?? beside.Model,
      lens: read.LensModel ?? beside.LensModel ?? beside.Lens,
      software: read.Software ?? beside.CreatorTool,
      exposureTimeS: read.ExposureTime ?? beside.ExposureTime,
      fNumber: read.FNumber ?? beside.FNumber,
      isoSpeed: read.ISO ?? beside.PhotographicSensitivity ?? beside.ISOSpeedRatings,
      focalLengthMm,
      claimedPpiX: claimed.x,
      claimedPpiY: claimed.y,
    },
    hints: {
      fileSource: read.FileSource,
      focalLengthMm,
      focalLength35Mm: read.FocalLengthIn35mmFormat,
      device: [read.Make ?? beside.Make, read.Model ?? beside.Model].filter((name) => name !== null).join(" "),
    },
    ppiFromXmp: bothWays(perInch(beside)),
  };
}

type Resolution = { XResolution: number | null; YResolution: number | null; ResolutionUnit: number };

/** Units are 2 for inches and 3 for centimetres; without one the numbers give a shape of pixels and no size. */
function perInch({ XResolution, YResolution, ResolutionUnit }: Resolution): { x: number | null; y: number | null } {
  const factor = { 2: 1, 3: 2.54 }[ResolutionUnit];
  const scaled = (value: number | null) => (factor === undefined || value === null ? null : value * factor);
  return { x: scaled(XResolution), y: scaled(YResolution) };
}

const bothWays = ({ x, y }: { x: number | null; y: number | null }): ClaimedPpi | null => (x === null || y === null ? null : { x, y });

/** "2021:05:06 12:13:14" as ISO 8601; null when it is no day of the calendar, e.g. all zeros. */
function isoMoment(said: string | null, offset: string | null = null): string | null {
  const found = /^(\d{4})[:-](\d{2})[:-](\d{2})[ T](\d{2}):(\d{2}):(\d{2})(?:\.\d+)?([+-]\d{2}:\d{2}|Z)?$/.exec(said ?? "");
  if (!found) return null;
  const [, year, month, day, hour, minute, second, zoneWithin] = found;
  const moment = `${year}-${month}-${day}T${hour}:${minute}:${second}`;
  const read = new Date(`${moment}Z`);
  const exists = !Number.isNaN(read.getTime()) && read.toISOString().startsWith(moment) && Number(year) >= FIRST_YEAR;
  return exists ? `${moment}${offset ?? zoneWithin ?? ""}` : null;
}
