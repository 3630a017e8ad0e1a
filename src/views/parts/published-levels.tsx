import { levelsReached, type RowStanding } from "#domain/aim/level-reached.ts";
import { figureInWords, measureInWords, valueInWords } from "#domain/aim/measure-words.ts";
import { LEVEL_TABLES, type LevelRow, type LevelTable } from "#domain/aim/published-levels.ts";
import { isTargetMeasure } from "#domain/aim/target-measures.ts";
import type { Reading } from "#domain/measure/reading.ts";
import { dateInWords } from "#domain/print/date.ts";
import { asSentence } from "#domain/sentence.ts";
import type { TargetReading } from "#domain/target/read-target.ts";
import { labelOf } from "./aim-words.ts";

/** What the figures of a capture would be in published tables of levels, as far as a print alone can prove it. */
export const PublishedLevels = ({ readings, check = null }: { readings: readonly Reading[]; check?: ShownCheck | null }) => (
  <section class="card" aria-labelledby="levels-title">
    <h2 id="levels-title">Published levels</h2>
    <p class="small">
      Levels rate a set-up by what it makes of a target. A print alone proves only a few figures, so no capture earns a level by itself.
      {check ? (
        <>
          {" "}
          What only a target proves comes from{" "}
          <a href={`/set-ups/${check.setUpId}/checks`}>the set-up's check of {dateInWords(check.takenOn)}</a>.
        </>
      ) : null}
    </p>
    {LEVEL_TABLES.map((table) => (
      <Table table={table} readings={readings} checked={check?.readings ?? []} />
    ))}
  </section>
);

/** The target check that speaks for a capture. */
export type ShownCheck = { readonly setUpId: number; readonly takenOn: string; readonly readings: readonly TargetReading[] };

function Table({ table, readings, checked }: { table: LevelTable; readings: readonly Reading[]; checked: readonly TargetReading[] }) {
  // beside a target alone, what only a print proves is no question
  const rows = levelsReached(table, readings, checked).filter(({ row }) => readings.length > 0 || isTargetMeasure(row.measure));
  const proved = rows.filter(({ standing }) => standing.state !== "needs-target");
  const open = rows.filter(({ standing }) => standing.state === "needs-target");
  return (
    <>
      <h3>{table.name}</h3>
      {proved.map((row) => (
        <p class="small">{standingInWords(row)}</p>
      ))}
      {open.length === 0 ? null : (
        <p class="small soft">Needs a target check: {open.map(({ row }) => measureInWords(row.measure)).join("; ")}.</p>
      )}
      <details>
        <summary>The figures of the table</summary>
        <section class="table-frame" aria-label={`Levels of ${table.name}`} tabindex={0}>
          <table class="table">
            <thead>
              <tr>
                <th scope="col">Figure</th>
                {table.levels.map(({ name }) => (
                  <th scope="col">{name}</th>
                ))}
              </tr>
            </thead>
            <tbody>
              {table.rows.map((row) => (
                <tr>
                  <th scope="row">
                    {labelOf(row.measure)}
                    {row.note ? <span class="second-line">{row.note}</span> : null}
                  </th>
                  {row.figures.map((figure) => (
                    <td>{figure === null ? "not found" : limitInWords(row, figure)}</td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </section>
        {sourcesOf(table).map((source) => (
          <p class="small soft">{source}</p>
        ))}
      </details>
    </>
  );
}

function standingInWords({ row, standing }: RowStanding): string {
  const label = labelOf(row.measure);
  switch (standing.state) {
    case "level":
      return `${label}: ${valueInWords(row.measure, standing.value)} would be ${standing.level.name} (${limitInWords(row, standing.figure)}).`;
    case "below":
      return `${label}: ${valueInWords(row.measure, standing.value)} reaches no level that has a figure here.`;
    case "not-read":
      return `${label}: not read here. ${asSentence(standing.reason)}`;
    case "needs-target":
      return `${label}: needs a target check.`;
  }
}

/** Limits as printed: "at least" and "at most" stand for "above" and "below" too. */
const limitInWords = ({ measure, sense }: LevelRow, figure: number) =>
  `${sense === "at-least" ? "at least" : "at most"} ${figureInWords(measure, figure)}`;

/** One sentence for columns that were read in one place. */
function sourcesOf({ levels }: LevelTable): string[] {
  return [...new Set(levels.map(({ source }) => source))].map((source) => {
    const names = levels.filter((level) => level.source === source).map(({ name }) => name);
    return `${names.join(", ")}: ${source}.`;
  });
}
