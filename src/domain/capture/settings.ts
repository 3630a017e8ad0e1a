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

/** What XMP may say where EXIF is silent; its tags carry the zone within the moment. */
const xmpTags = z.object({
  Make: line,
  Model: line,
  LensModel: line,
  Lens: line,
  CreatorTool: line,
  DateTimeOriginal: line,
  CreateDate: line,
});

/** Clocks that were never set start in years before digital pictures were made (common practice, no source). */
const FIRST_YEAR = 1980;

export type MethodHints = {
  readonly fileSource: number | null;
  readonly focalLengthMm: number | null;
  readonly focalLength35Mm: number | null;
};

/**
 * Settings from EXIF tags by name (CIPA DC-008, numbers not translated), in typed units; names and
 * the moment from XMP (ISO 16684-1) where EXIF does not say them. The capture time is when the picture
 * was taken, else when it was digitised, and gets a zone only where the file says one. Position is never read.
 */
export function settingsOf(
  exif: Readonly<Record<string, unknown>>,
  xmp: Readonly<Record<string, unknown>> = {},
): { settings: CaptureSettings; hints: MethodHints } {
  const read = tags.parse(Object.fromEntries(Object.keys(tags.shape).map((name) => [name, exif[name] ?? null])));
  const beside = xmpTags.parse(Object.fromEntries(Object.keys(xmpTags.shape).map((name) => [name, xmp[name] ?? null])));
  const perInch = read.ResolutionUnit === 3 ? 2.54 : 1;
  const claims = read.ResolutionUnit === 2 || read.ResolutionUnit === 3;
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
      exposureTimeS: read.ExposureTime,
      fNumber: read.FNumber,
      isoSpeed: read.ISO,
      focalLengthMm: read.FocalLength,
      claimedPpiX: claims && read.XResolution !== null ? read.XResolution * perInch : null,
      claimedPpiY: claims && read.YResolution !== null ? read.YResolution * perInch : null,
    },
    hints: { fileSource: read.FileSource, focalLengthMm: read.FocalLength, focalLength35Mm: read.FocalLengthIn35mmFormat },
  };
}

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
