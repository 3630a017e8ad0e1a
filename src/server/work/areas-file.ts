import { readFile, rename, rm, writeFile } from "node:fs/promises";
import { z } from "zod";
import { MEASURE_NAMES, type MeasureName } from "#domain/measure/catalogue.ts";
import type { MarkedArea } from "#domain/measure/marked-area.ts";
import { isPresent, type Reading } from "#domain/measure/reading.ts";
import { type CollectionFolder, derivedPath } from "../collection-folder.ts";

/** What each measure marks. */
export type Areas = ReadonlyMap<MeasureName, readonly MarkedArea[]>;

/** From one capture alone, or by comparison: each is made anew with its own readings. */
const FILES = { alone: "areas.json", together: "areas-together.json" } as const;
type Family = keyof typeof FILES;

const loop = z.array(z.tuple([z.number(), z.number()]));
const kept = z.partialRecord(z.enum(MEASURE_NAMES), z.array(z.object({ of: z.enum(["sheet", "picture", "frame"]), loops: z.array(loop) })));

/** Keeps where readings found what they count among the derived files: it can be thrown away, and measuring makes it again. */
export async function writeAreas(folder: CollectionFolder, captureId: number, family: Family, readings: readonly Reading[]): Promise<void> {
  const target = derivedPath(folder, captureId, FILES[family]);
  const marked = readings.flatMap((reading) =>
    isPresent(reading) && reading.area ? [[reading.name, reading.area.map(flat)] as const] : [],
  );
  if (marked.length === 0) return rm(target, { force: true });
  const halfMade = `${target}.${crypto.randomUUID()}`;
  await writeFile(halfMade, JSON.stringify(Object.fromEntries(marked)));
  await rename(halfMade, target);
}

const flat = ({ of, loops }: MarkedArea) => ({ of, loops: loops.map((points) => points.map(({ x, y }) => [x, y])) });

/** Empty where nothing was kept, or it cannot be read. */
async function readAreas(folder: CollectionFolder, captureId: number, family: Family): Promise<Areas> {
  const text = await readFile(derivedPath(folder, captureId, FILES[family]), "utf8").catch(() => "{}");
  const read = kept.safeParse(parsed(text));
  if (!read.success) return new Map();
  return new Map(
    Object.entries(read.data).map(([name, areas]) => [
      name as MeasureName,
      areas.map(({ of, loops }) => ({ of, loops: loops.map((points) => points.map(([x, y]) => ({ x, y }))) })),
    ]),
  );
}

/** What the readings that hold mark: by comparison where they were read so. */
export async function areasOf(
  folder: CollectionFolder,
  captureId: number,
  readings: readonly (Reading & { readonly family: Family })[],
): Promise<Areas> {
  const [alone, together] = await Promise.all([readAreas(folder, captureId, "alone"), readAreas(folder, captureId, "together")]);
  return new Map(
    readings.flatMap(({ name, family }) => {
      const areas = (family === "together" ? together : alone).get(name);
      return areas ? [[name, areas] as const] : [];
    }),
  );
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return {};
  }
}

/** Readings as they are kept and sent between threads, without what is drawn. */
export const withoutAreas = (readings: readonly Reading[]): Reading[] =>
  readings.map((reading) => {
    if (!isPresent(reading)) return reading;
    const { area: _, ...rest } = reading;
    return rest;
  });
