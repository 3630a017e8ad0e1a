import { differenceInWords, measureInWords } from "#domain/aim/measure-words.ts";
import { describeMeasure } from "#domain/aim/target-measures.ts";
import type { PairedMeasure, WaysCompared } from "#domain/methods/compare-ways.ts";
import { capital } from "#domain/sentence.ts";

/**
 * Median paired gain of each measure with its interval, in the range in which the aim counts that measure, so that all share one
 * axis. Names stand beside the lines, above them where the page is narrow. The table has the numbers in their own units.
 */
export function GainPlot({ measures, first, second }: { measures: readonly PairedMeasure[]; first: string; second: string }) {
  const rows = measures.flatMap((each) => (each.gain ? [{ ...each, gain: each.gain }] : []));
  if (rows.length === 0) return null;
  const widest = Math.min(1, Math.max(0.1, ...rows.flatMap(({ gain }) => [Math.abs(gain.low), Math.abs(gain.high)])));
  const x = (gain: number) => `${(50 + 46 * (Math.max(-widest, Math.min(widest, gain)) / widest)).toFixed(2)}%`;
  return (
    <figure class="plot gain-plot">
      <div class="gain-row" aria-hidden="true">
        <span />
        <span class="gain-ways">
          <span>← {second} better</span>
          <span>{first} better →</span>
        </span>
      </div>
      <ul class="gain-rows">
        {rows.map(({ measure, gain, verdict }) => (
          <li class={`gain-row ${verdict === "not told" ? "gain-open" : "gain-told"}`}>
            <span class="gain-name">{describeMeasure(measure)?.label ?? measure}</span>
            <svg class="gain-line" role="img" aria-label={gainInWords(gain.middle, verdict, first, second)}>
              <line class="gain-nought" x1="50%" x2="50%" y1="0" y2="100%" />
              <line class="gain-interval" x1={x(gain.low)} x2={x(gain.high)} y1="50%" y2="50%" />
              <circle cx={x(gain.middle)} cy="50%" r="6" />
            </svg>
          </li>
        ))}
      </ul>
      <figcaption>
        Full dots: told apart. Open dots: what is seen may be chance. Lines: 95 % interval of the median. The width is{" "}
        {Math.round(100 * widest)} % of the range that the aim counts, either way.
      </figcaption>
    </figure>
  );
}

function gainInWords(middle: number, verdict: PairedMeasure["verdict"], first: string, second: string): string {
  if (verdict === "not told") return "not told apart";
  return `${verdict === "first" ? first : second} better, by ${Math.round(100 * Math.abs(middle))} % of the range that the aim counts`;
}

/** The same in numbers, with every measure that both ways show. */
export const PairedTable = ({ measures, first, second }: { measures: WaysCompared["measures"]; first: string; second: string }) => (
  <section class="table-frame" aria-label="Pair by pair, table" tabindex={0}>
    <table class="table table-stacked">
      <thead>
        <tr>
          <th scope="col">Measure</th>
          <th scope="col">Pairs</th>
          <th scope="col">{first} better</th>
          <th scope="col">{second} better</th>
          <th scope="col">Alike</th>
          <th scope="col">Median difference</th>
          <th scope="col">Middle half</th>
          <th scope="col">95 % interval of the median</th>
          <th scope="col">Chance</th>
        </tr>
      </thead>
      <tbody>
        {measures.map((each) => (
          <tr>
            <th scope="row">
              {capital(measureInWords(each.measure))}
              {each.hasBounds ? " (some are bounds)" : ""}
            </th>
            <td data-label="Pairs">{each.pairs}</td>
            <td data-label={`${first} better`}>{each.better}</td>
            <td data-label={`${second} better`}>{each.worse}</td>
            <td data-label="Alike">{each.alike}</td>
            <td data-label="Median difference">{differenceInWords(each.measure, each.difference)}</td>
            <td data-label="Middle half">
              {differenceInWords(each.measure, each.middleHalf.low)} to {differenceInWords(each.measure, each.middleHalf.high)}
            </td>
            <td data-label="95 % interval of the median">
              {each.interval
                ? `${differenceInWords(each.measure, each.interval.low)} to ${differenceInWords(each.measure, each.interval.high)}`
                : "too few pairs"}
            </td>
            <td data-label="Chance">{each.chance === null ? "too few differ" : chanceInWords(each.chance)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  </section>
);

const chanceInWords = (chance: number): string => (chance < 0.001 ? "below 0.001" : chance.toFixed(3));
