import type { Print } from "#domain/print/print.ts";
import type { PrintFilter } from "#domain/print/print-filter.ts";
import { type CareFacts, type CarePriority, carePriority } from "#domain/storage/care-priority.ts";
import { climateDays } from "#domain/storage/climate/days.ts";
import { mouldRisk } from "#domain/storage/climate/mould.ts";
import { type ClimateLimit, climateLimitOf } from "#domain/storage/climate/published-limits.ts";
import { type ClimateSeries, heldSeconds, known, notKnown } from "#domain/storage/climate/series.ts";
import { stretchOf } from "#domain/storage/climate/stretch.ts";
import { timeOutside } from "#domain/storage/climate/time-outside.ts";
import { whoseClimate } from "#domain/storage/climate/whose-climate.ts";
import { flatten, placeTree } from "#domain/storage/place-tree.ts";
import { climateSeries, placesWithReadings, readingSpan } from "#drizzle/queries/climate.ts";
import { latestFindings } from "#drizzle/queries/findings.ts";
import { listPlaces } from "#drizzle/queries/places.ts";
import { listPrints } from "#drizzle/queries/prints.ts";
import { lastSurveys } from "#drizzle/queries/surveys.ts";
import type { Context } from "../context.ts";

export type CareLine = {
  readonly print: Pick<Print, "id" | "objectNumber" | "title" | "processId">;
  readonly placePath: readonly string[];
  readonly priority: CarePriority;
};

/** What to care for first: the highest priority on top, and of equal ones that which may be higher. */
export function careList(context: Context, filter: PrintFilter): CareLine[] {
  const { rows } = listPrints(context.db, { ...filter, page: 1, perPage: null });
  const ids = rows.map(({ id }) => id);
  const surveys = lastSurveys(context.db, ids);
  const findings = latestFindings(context.db, ids);
  const nodes = new Map(flatten(placeTree(listPlaces(context.db))).map((node) => [node.id, node]));
  const climateOf = climates(context);
  const lines = rows.map((print): CareLine => {
    const survey = surveys.get(print.id);
    const standing = (findings.get(print.id) ?? []).filter(({ severity }) => severity > 0);
    const priority = carePriority({
      grade: survey?.grade ?? null,
      findings: survey ? standing : null,
      significance: print.significance,
      climate: climateOf(print.placeId, print.processId),
    });
    const { id, objectNumber, title, processId } = print;
    return { print: { id, objectNumber, title, processId }, placePath: nodes.get(print.placeId ?? 0)?.path ?? [], priority };
  });
  return lines.toSorted((a, b) => b.priority.score - a.priority.score || b.priority.most - a.priority.most);
}

type Read = { readonly series: ClimateSeries; readonly held: Float64Array; readonly mouldDays: number | null };

/** The climate risk of each place and limit over the last year of its readings, each worked out once. */
function climates(context: Context): (placeId: number | null, processId: string) => CareFacts["climate"] {
  const tells = whoseClimate(placeTree(listPlaces(context.db)), placesWithReadings(context.db));
  const reads = new Map<number, Read | null>();
  const risks = new Map<string, CareFacts["climate"]>();
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
    const held = risks.get(key) ?? riskOf(from, limit);
    risks.set(key, held);
    return held;
  };
}
