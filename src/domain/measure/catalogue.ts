import { DEVICE } from "./catalogue/device.ts";
import type { CatalogueEntry } from "./catalogue/entry.ts";
import { FILE } from "./catalogue/file.ts";
import { GEOMETRY } from "./catalogue/geometry.ts";
import { LIGHT } from "./catalogue/light.ts";
import { SHARPNESS } from "./catalogue/sharpness.ts";
import { SURFACE } from "./catalogue/surface.ts";
import { TONE } from "./catalogue/tone.ts";

/** Every measure the program knows, in the order a keeper reads them. */
const ENTRIES = { ...GEOMETRY, ...SHARPNESS, ...TONE, ...LIGHT, ...DEVICE, ...SURFACE, ...FILE };

export type MeasureName = keyof typeof ENTRIES;

export const MEASURE_NAMES = Object.keys(ENTRIES) as readonly MeasureName[];

export type MeasureDefinition = CatalogueEntry & { readonly name: MeasureName };

export const MEASURES = Object.fromEntries(MEASURE_NAMES.map((name) => [name, { name, ...ENTRIES[name] }])) as unknown as Readonly<
  Record<MeasureName, MeasureDefinition>
>;
