import type { AimLimit, SourceStatus } from "#domain/aim/aim.ts";
import { figureInWords } from "#domain/aim/measure-words.ts";
import { labelOf } from "./aim-words.ts";

const STATUS_WORDS: Readonly<Record<SourceStatus, string>> = {
  standard: "read in the standard",
  secondary: "as quoted by others",
  memory: "from memory",
  own: "own figure",
};

/** What an aim asks of each measure, with where every figure comes from. */
export function AimTable({ limits }: { limits: readonly AimLimit[] }) {
  const byTarget = limits.filter((limit) => limit.provedBy === "target");
  return (
    <>
      <div class="table-frame">
        <table class="table table-stacked aim-table">
          <caption class="visually-hidden">What this aim asks of a capture</caption>
          <thead>
            <tr>
              <th scope="col">Measure</th>
              <th scope="col">Must be</th>
              <th scope="col">Counts</th>
              <th scope="col">Weight</th>
              <th scope="col">Source</th>
            </tr>
          </thead>
          <tbody>
            {limits
              .filter((limit) => limit.provedBy === "print")
              .map((limit) => (
                <tr>
                  <th scope="row">{labelOf(limit.measure)}</th>
                  <td data-label="Must be">{requiredInWords(limit)}</td>
                  <td data-label="Counts">{countsInWords(limit)}</td>
                  <td data-label="Weight">{limit.weight}</td>
                  <td data-label="Source">
                    <span class="small">
                      {limit.source} <span class="soft">({STATUS_WORDS[limit.sourceStatus]})</span>
                    </span>
                  </td>
                </tr>
              ))}
          </tbody>
        </table>
      </div>
      {byTarget.length > 0 ? (
        <details>
          <summary>Asked of the set-up, which only a target check can prove ({byTarget.length})</summary>
          <ul>
            {byTarget.map((limit) => (
              <li>
                {labelOf(limit.measure)}: {requiredInWords(limit)}. <span class="small soft">{limit.source}</span>
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </>
  );
}

function requiredInWords({ measure, requiredAtLeast, requiredAtMost }: AimLimit): string {
  if (measure === "lossless" && requiredAtLeast === 1) return "yes";
  const said = [
    ...(requiredAtLeast === null ? [] : [`at least ${figureInWords(measure, requiredAtLeast)}`]),
    ...(requiredAtMost === null ? [] : [`at most ${figureInWords(measure, requiredAtMost)}`]),
  ];
  return said.length === 0 ? "not required" : said.join(", ");
}

function countsInWords({ measure, sense, lowest, best, highest, weight }: AimLimit): string {
  if (weight === 0) return "only has to be met";
  if (measure === "lossless") return lowest !== null && lowest < 0 ? "better if yes; no counts half" : "better if yes";
  const from = sense === "at-most" ? highest : lowest;
  return `from ${from === null ? "any" : figureInWords(measure, from)} up to ${figureInWords(measure, best)}`.replace(
    "up to",
    sense === "at-most" ? "down to" : "up to",
  );
}
