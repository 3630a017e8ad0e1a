import { valueInWords } from "#domain/aim/measure-words.ts";
import { describeMeasure } from "#domain/aim/target-measures.ts";
import { costInWords, paceInWords } from "#domain/methods/effort-in-words.ts";
import type { WaySummary } from "#domain/methods/summarise-way.ts";

export type NamedWay = WaySummary & { readonly name: string };

/** Measures that people ask for first; a table that opens has all. */
const SHOWN = ["samplingPpi", "sfr50CyPerMm", "detailCyPerMm", "glareAreaPercent", "keystonePercent", "noiseDeltaL"];

/** Each way by itself: how many prints and how good, its time and what it costs, and the measures that people ask for first. */
export function WaysTable({ ways }: { ways: readonly NamedWay[] }) {
  const shown = SHOWN.filter((measure) => ways.some(({ measures }) => measures.some((each) => each.measure === measure)));
  return (
    <section class="table-frame" aria-label="Ways of capturing, table" tabindex={0}>
      <table class="table table-stacked">
        <thead>
          <tr>
            <th scope="col">Way</th>
            <th scope="col">Prints</th>
            <th scope="col">Captures</th>
            <th scope="col">Meet the aim</th>
            <th scope="col">Time</th>
            <th scope="col">Equipment</th>
            {shown.map((measure) => (
              <th scope="col">{describeMeasure(measure)?.label}</th>
            ))}
          </tr>
        </thead>
        <tbody>
          {ways.map(({ name, prints, captures, meets, minutes, cost, measures }) => (
            <tr>
              <th scope="row">{name}</th>
              <td data-label="Prints">{prints}</td>
              <td data-label="Captures">{captures}</td>
              <td data-label="Meet the aim">
                {meets.count} ({Math.round(meets.lowPercent)} to {Math.round(meets.highPercent)} %)
              </td>
              <td class="ways-effort" data-label="Time">
                {paceInWords(minutes)}
              </td>
              <td class="ways-effort" data-label="Equipment">
                {costInWords(cost)}
              </td>
              {shown.map((measure) => {
                const spread = measures.find((each) => each.measure === measure);
                return (
                  <td data-label={describeMeasure(measure)?.label}>
                    {spread ? (
                      <>
                        {valueInWords(measure, spread.middle)}
                        <span class="small soft ways-spread">
                          {valueInWords(measure, spread.low)} to {valueInWords(measure, spread.high)}, {spread.count} read
                        </span>
                      </>
                    ) : (
                      "not shown"
                    )}
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** All measures with the quarters of their values, way beside way. */
export function EveryMeasure({ ways }: { ways: readonly NamedWay[] }) {
  const read = [...new Set(ways.flatMap(({ measures }) => measures.map(({ measure }) => measure)))];
  if (read.length === 0) return null;
  return (
    <details>
      <summary>Every measure, with its spread</summary>
      <section class="table-frame" aria-label="Every measure, table" tabindex={0}>
        <table class="table table-stacked">
          <thead>
            <tr>
              <th scope="col">Measure</th>
              <th scope="col">Way</th>
              <th scope="col">Read</th>
              <th scope="col">A quarter below</th>
              <th scope="col">Half below</th>
              <th scope="col">Three quarters below</th>
            </tr>
          </thead>
          <tbody>
            {read.flatMap((measure) =>
              ways.flatMap(({ name, measures }) =>
                measures
                  .filter((each) => each.measure === measure)
                  .map(({ count, low, middle, high, hasBounds }) => (
                    <tr>
                      <th scope="row">
                        {describeMeasure(measure)?.label}
                        {hasBounds ? " (some are bounds)" : ""}
                      </th>
                      <td data-label="Way">{name}</td>
                      <td data-label="Read">{count}</td>
                      <td data-label="A quarter below">{valueInWords(measure, low)}</td>
                      <td data-label="Half below">{valueInWords(measure, middle)}</td>
                      <td data-label="Three quarters below">{valueInWords(measure, high)}</td>
                    </tr>
                  )),
              ),
            )}
          </tbody>
        </table>
      </section>
    </details>
  );
}
