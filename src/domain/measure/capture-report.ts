import { z } from "zod";
import { METHODS, type Method } from "../capture/method.ts";
import { MEASURE_NAMES, MEASURES } from "./catalogue.ts";
import { ownCorners } from "./own-corners.ts";
import { isPresent, type Outline, type Reading } from "./reading.ts";

const name = z.enum(MEASURE_NAMES);

const presentMeasure = z
  .strictObject({
    name,
    value: z.number(),
    unit: z.string().meta({ description: "unit of value and spread; empty where the measure has none" }),
    spread: z.number().nonnegative().nullable().meta({
      description:
        "one standard uncertainty of the value (JCGM 100:2008, 2.3.1), of a tolerance ± a thus a / √3 (rectangle) or a / √6 (triangle); null: not known",
    }),
    bound: z.enum(["lower", "upper"]).nullable().meta({ description: "the true value is at least (lower) or at most (upper) this" }),
    reliability: z.enum(["firm", "fair", "weak"]).meta({ description: "weak: a hint where to look, never the reason for a choice" }),
    region: z.enum(["frame", "sheet", "picture", "border", "edges", "file"]).meta({ description: "what it is read from" }),
    version: z.int().positive().meta({ description: "grows by one when the method changes" }),
    note: z.string().nullable(),
    detail: z.record(z.string(), z.unknown()).nullable().meta({ description: "parts of the reading: per side, places, curves" }),
  })
  .meta({ description: "a value that was read" });

const absentMeasure = z
  .strictObject({ name, absent: z.string().min(1).meta({ description: "why it could not be read, and where it helps what would tell" }) })
  .meta({ description: "a measure that could not be read" });

const corner = z.tuple([z.number(), z.number()]);

/** What is read from one file: the answer of the command line for programs. */
export const captureReportSchema = z
  .strictObject({
    file: z.string(),
    sha256: z.string().regex(/^[0-9a-f]{64}$/),
    widthPx: z.int().positive().meta({ description: "of the upright image, after its EXIF orientation" }),
    heightPx: z.int().positive(),
    method: z.enum(METHODS).nullable().meta({ description: "said or guessed from the file; null: not known" }),
    printsFound: z.int().nonnegative().meta({ description: "how many prints lie in the frame; where several, the largest was measured" }),
    outlinePx: z.tuple([corner, corner, corner, corner]).nullable().meta({
      description:
        "corners of the sheet, clockwise from the print's own top left, in px of the upright image, where pixel (x, y) has its centre at (x, y); null: no print was found",
    }),
    cornerSpreadPx: z.number().nonnegative().nullable().meta({ description: "one-sigma uncertainty of a corner" }),
    measures: z.array(z.union([presentMeasure, absentMeasure])),
  })
  .meta({ title: "Capture report", description: "Everything that Solander reads from one capture of a photographic print." });

export type CaptureReport = z.infer<typeof captureReportSchema>;

type Read = {
  readonly file: string;
  readonly sha256: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly method: Method | null;
  readonly printsFound: number;
  readonly outline: Outline | null;
  readonly readings: readonly Reading[];
};

/** Measures in the order of the catalogue. */
export function captureReport({ outline, readings, ...facts }: Read): CaptureReport {
  const [a, b, c, d] = outline ? ownCorners(outline).map(({ x, y }): [number, number] => [x, y]) : [];
  return {
    ...facts,
    outlinePx: a && b && c && d ? [a, b, c, d] : null,
    cornerSpreadPx: outline?.cornerSpreadPx ?? null,
    measures: readings.toSorted((one, other) => MEASURE_NAMES.indexOf(one.name) - MEASURE_NAMES.indexOf(other.name)).map(measureOf),
  };
}

function measureOf(reading: Reading): CaptureReport["measures"][number] {
  if (!isPresent(reading)) return { name: reading.name, absent: reading.absent };
  const { unit, region, version } = MEASURES[reading.name];
  return {
    name: reading.name,
    value: reading.value,
    unit,
    spread: reading.spread !== undefined && Number.isFinite(reading.spread) ? reading.spread : null,
    bound: reading.bound ?? null,
    reliability: reading.reliability,
    // by comparison some are read over the picture that one capture tells from its border alone
    region: reading.detail?.of === "picture" ? "picture" : region,
    version,
    note: reading.note ?? null,
    detail: reading.detail ? { ...reading.detail } : null,
  };
}
