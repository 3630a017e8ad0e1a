import type { Print } from "#domain/print/print.ts";
import type { PrintFilter } from "#domain/print/print-filter.ts";
import { type CarePriority, carePriority } from "#domain/storage/care-priority.ts";
import { flatten, placeTree } from "#domain/storage/place-tree.ts";
import { latestFindings } from "#drizzle/queries/findings.ts";
import { listPlaces } from "#drizzle/queries/places.ts";
import { listPrints } from "#drizzle/queries/prints.ts";
import { lastSurveys } from "#drizzle/queries/surveys.ts";
import { climateRisks } from "../climate/climate-risks.ts";
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
  const climateOf = climateRisks(context);
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
