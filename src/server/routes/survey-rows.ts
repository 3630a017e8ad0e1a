import type { DatedFinding } from "#domain/condition/finding.ts";
import { regionsAsTyped } from "#domain/condition/marked-region.ts";
import type { Typed } from "#views/parts/field.tsx";

type Row = Record<string, string>;

/** More rows than anybody sends, so that a made-up number cannot ask for millions. */
const MOST_ROWS = 200;

/** The rows of a list in a form, whose fields are called list.0.field, list.1.field …; a row that was not sent is empty. */
export function sentRows(typed: Typed, list: string): Row[] {
  const rows: Row[] = [];
  for (const [name, value] of Object.entries(typed)) {
    const [of, number, field] = name.split(".");
    const index = Number(number);
    if (of !== list || field === undefined || !Number.isInteger(index) || index < 0 || index >= MOST_ROWS) continue;
    while (rows.length <= index) rows.push({});
    rows[index] = { ...rows[index], [field]: value };
  }
  return rows;
}

/**
 * The fields as they are shown: what was typed, and each earlier finding with what was said of that very finding, or else as it was
 * last judged. Rows may have moved meanwhile: findings are told apart by their id, not by their row.
 */
export function typedAgain(typed: Typed, standing: readonly DatedFinding[]): Typed {
  const sent = sentRows(typed, "rejudged");
  const others = Object.entries(typed).filter(([name]) => !name.startsWith("rejudged."));
  const again = standing.flatMap((finding, index) => {
    const { severity, activity, extent, regions, note } = finding;
    const row = sent.find(({ findingId }) => findingId === String(finding.id)) ?? {
      severity: String(severity),
      activity,
      extent: extent ?? "",
      regions: regionsAsTyped(regions),
      note: note ?? "",
    };
    return Object.entries(row).map(([field, value]) => [`rejudged.${index}.${field}`, value]);
  });
  return Object.fromEntries([...others, ...again]);
}
