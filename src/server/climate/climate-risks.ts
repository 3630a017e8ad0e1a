import type { CareFacts } from "#domain/storage/care-priority.ts";
import { climateDays } from "#domain/storage/climate/days.ts";
import { mouldRisk } from "#domain/storage/climate/mould.ts";
import { type ClimateLimit, climateLimitOf } from "#domain/storage/climate/published-limits.ts";
import { type ClimateSeries, heldSeconds, known, notKnown } from "#domain/storage/climate/series.ts";
import { stretchOf } from "#domain/storage/climate/stretch.ts";
import { timeOutside } from "#domain/storage/climate/time-outside.ts";
import { whoseClimate } from "#domain/storage/climate/whose-climate.ts";
import { placeTree } from "#domain/storage/place-tree.ts";
import { climateSeries, listClimateImports, placesWithReadings, readingSpan } from "#drizzle/queries/climate.ts";
import { listPlaces } from "#drizzle/queries/places.ts";
import type { Context } from "../context.ts";

type Read = { readonly series: ClimateSeries; readonly held: Float64Array; readonly mouldDays: number | null };

type Kept = { readonly basis: string; readonly risk: CareFacts["climate"] };
/** What was worked out stays until other readings come or go: a minute-by-minute year takes the better part of a second. */
const keptOf = new WeakMap<Context["db"], Map<string, Kept>>();

/** The climate risk of each place and limit over the last year of its readings, worked out once for as long as the readings stay. */
export function climateRisks(context: Context): (placeId: number | null, processId: string) => CareFacts["climate"] {
  const tells = whoseClimate(placeTree(listPlaces(context.db)), placesWithReadings(context.db));
  const reads = new Map<number, Read | null>();
  const kept = keptOf.get(context.db) ?? new Map<string, Kept>();
  keptOf.set(context.db, kept);
  const bases = new Map<number, string>();
  const basisOf = (placeId: number): string => {
    const basis = bases.get(placeId) ?? readingsAsOf(context, placeId);
    bases.set(placeId, basis);
    return basis;
  };
  const readOf = (placeId: number): Read | null => {
    const span = readingSpan(context.db, placeId);
    if (!span) return null;
    const { fromSeconds, toSeconds } = stretchOf("year", span);
    const series = climateSeries(context.db, placeId, fromSeconds, toSeconds);
    const held = heldSeconds(series);
    const mould = mouldRisk(climateDays(series, held));
    return { series, held, mouldDays: mould.known ? mould.value.riskDays : null };
  };
  const riskOf = (placeId: number, limit: ClimateLimit): CareFacts["climate"] => {
    if (!reads.has(placeId)) reads.set(placeId, readOf(placeId));
    const read = reads.get(placeId);
    if (!read) return notKnown("no climate readings");
    const { outsideShare, unknownShare } = timeOutside(read.series, limit, read.held);
    return known({ outsideShare, unknownShare, mouldDays: read.mouldDays });
  };
  return (placeId, processId) => {
    if (placeId === null) return notKnown("place not known");
    const from = tells.get(placeId);
    if (from === undefined) return notKnown("no climate readings");
    const limit = climateLimitOf(processId);
    const key = `${from} ${limit.id}`;
    const basis = basisOf(from);
    const before = kept.get(key);
    const risk = before?.basis === basis ? before.risk : riskOf(from, limit);
    kept.set(key, { basis, risk });
    return risk;
  };
}

/** Which readings a place has: its files and lots, and the span of their readings. */
const readingsAsOf = ({ db }: Context, placeId: number): string =>
  JSON.stringify([
    readingSpan(db, placeId),
    listClimateImports(db, placeId).map(({ id, readingCount, createdAt }) => [id, readingCount, createdAt]),
  ]);
