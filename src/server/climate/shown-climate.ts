import { findProcess } from "#domain/print/process.ts";
import { climateStretches } from "#domain/storage/climate/days.ts";
import { type PlaceClimate, placeClimate } from "#domain/storage/climate/place-climate.ts";
import { type ClimateSeries, DAY_SECONDS, HOUR_SECONDS } from "#domain/storage/climate/series.ts";
import { type StretchName, stretchOf } from "#domain/storage/climate/stretch.ts";
import { whoseClimate } from "#domain/storage/climate/whose-climate.ts";
import { flatten, type PlaceNode } from "#domain/storage/place-tree.ts";
import { climateSeries, placesWithReadings, processesByPlace, readingSpan } from "#drizzle/queries/climate.ts";
import type { Context } from "../context.ts";

export type ShownClimate = {
  readonly series: ClimateSeries;
  readonly climate: PlaceClimate;
  /** the steps of the chart, fit for its width */
  readonly steps: ReturnType<typeof climateStretches>;
  readonly stepSeconds: number;
  /** processes of the prints that live in this climate, with the places inside that measure nothing of their own */
  readonly processNames: ReadonlyMap<string, string>;
};

/** Steps that still are told apart on a chart. */
const MOST_STEPS = 400;

/** A place's own readings and what they say for the prints that live in them; null where it has none. */
export function shownClimate(context: Context, tree: readonly PlaceNode[], placeId: number, stretch: StretchName): ShownClimate | null {
  const span = readingSpan(context.db, placeId);
  if (!span) return null;
  const { fromSeconds, toSeconds } = stretchOf(stretch, span);
  const series = climateSeries(context.db, placeId, fromSeconds, toSeconds);
  const processIds = processesIn(context, tree, placeId);
  const stepSeconds = [HOUR_SECONDS, DAY_SECONDS, 7 * DAY_SECONDS, 30 * DAY_SECONDS].find(
    (step) => (toSeconds - fromSeconds) / step <= MOST_STEPS * 2,
  );
  const step = stepSeconds ?? 30 * DAY_SECONDS;
  return {
    series,
    climate: placeClimate(series, processIds),
    steps: climateStretches(series, step),
    stepSeconds: step,
    processNames: new Map(processIds.map((id) => [id, findProcess(id)?.name ?? id])),
  };
}

/** Processes of the prints for which this place's readings speak. */
function processesIn(context: Context, tree: readonly PlaceNode[], placeId: number): string[] {
  const tells = whoseClimate(tree, placesWithReadings(context.db));
  const by = processesByPlace(context.db);
  const ids = flatten(tree).flatMap(({ id }) => (tells.get(id) === placeId ? (by.get(id) ?? []) : []));
  return [...new Set(ids)].sort();
}
