import { z } from "zod";
import { SIDES } from "#domain/capture/capture.ts";
import { METHODS } from "#domain/capture/method.ts";
import { PLACE_KINDS } from "#domain/storage/place.ts";

/** Where the demo's prints are kept; a place stands after the place it is in. */
const demoPlace = z.object({ key: z.string(), parent: z.string().nullable(), kind: z.enum(PLACE_KINDS), name: z.string() });

const demoSetUp = z.object({
  key: z.string(),
  name: z.string(),
  method: z.enum(METHODS),
  device: z.string(),
  lens: z.string(),
  light: z.string(),
  glass: z.string(),
  settings: z.string(),
  /** what it was bought for, as typed; without it nobody knows */
  priceAmount: z.string().optional(),
  priceCurrency: z.string().optional(),
  /** what a plan is worked out from; without it none is kept with the set-up */
  figures: z.record(z.string(), z.string()).optional(),
});

/** A print's record, in the words a keeper would type into the form. */
const demoRecord = z.object({
  objectNumber: z.string(),
  /** key of its place */
  place: z.string(),
  fields: z.record(z.string(), z.string()),
  people: z.array(z.string()),
  subjects: z.array(z.string()),
});

const pixel = z.object({ x: z.number(), y: z.number() });
/** top left, top right, bottom right, bottom left, as the print is read */
const corners = z.tuple([pixel, pixel, pixel, pixel]);

/** Where a print truly lies in a capture, upright, in pixels whose centres are whole numbers. */
const printTruth = z.object({
  objectNumber: z.string(),
  sheetPx: corners,
  imagePx: corners.nullable(),
  sheetWidthMm: z.number(),
  sheetHeightMm: z.number(),
  /** at the middle of the sheet, along its width and its height */
  ppiX: z.number(),
  ppiY: z.number(),
  /** turn of the sheet's upper side against the frame, clockwise */
  skewDegrees: z.number(),
  /** how much longer one side looks than the side opposite, in percent of the shorter, the larger of the two pairs: as keystone.ts reads it */
  keystonePercent: z.number(),
  /** smallest and largest sigma of the blur over the sheet, as a Gaussian; sharpening not counted */
  blurSigmaPx: z.tuple([z.number(), z.number()]),
  /** share of the sheet where a reflection adds more than 0.01 of white */
  glarePercent: z.number(),
  /** shares of the sheet's pixels with a channel at its end, before JPEG */
  clippedHighlightsPercent: z.number(),
  clippedShadowsPercent: z.number(),
  /** sides of the sheet that lie whole in the frame */
  sidesInFrame: z.number(),
});

const demoCapture = z.object({
  file: z.string(),
  method: z.enum(METHODS),
  setUp: z.string().nullable(),
  side: z.enum(SIDES),
  /** object numbers shown, in reading order; more than one on a bed */
  prints: z.array(z.string()),
  /** true when the file name names its print, so that nobody has to say it */
  namesItsPrint: z.boolean(),
  takenAt: z.string(),
  /** what is wrong with it; null when nothing is */
  wrong: z.string().nullable(),
  /** file whose bytes this one repeats */
  sameBytesAs: z.string().nullable(),
  truth: z.array(printTruth),
});

/** What `manifest.json` holds: the family's records, and of every capture how it was made and what is true of it. */
export const manifestShape = z.object({
  name: z.string(),
  objectNumberPattern: z.string(),
  places: z.array(demoPlace),
  setUps: z.array(demoSetUp),
  prints: z.array(demoRecord),
  captures: z.array(demoCapture),
});

export type Manifest = z.infer<typeof manifestShape>;
export type DemoPlace = z.infer<typeof demoPlace>;
export type DemoSetUp = z.infer<typeof demoSetUp>;
export type DemoCapture = z.infer<typeof demoCapture>;
export type PrintTruth = z.infer<typeof printTruth>;
export type PxPoint = z.infer<typeof pixel>;
