import { measureInWords, valueInWords } from "#domain/aim/measure-words.ts";
import { describeMeasure } from "#domain/aim/target-measures.ts";
import type { PairedMeasure, WaysCompared } from "#domain/methods/compare-ways.ts";
import { capital } from "#domain/sentence.ts";

const WIDTH = 720;
const ROW = 34;
const [LEFT, RIGHT, TOP, BOTTOM] = [250, 24, 40, 34];

/**
 * Median paired gain of each measure with its interval, in the range in which the aim counts that measure, so that all share one
 * axis. The table beside it has the numbers in their own units.
 */
export function GainPlot({ measures, first, second }: { measures: readonly PairedMeasure[]; first: string; second: string }) {
  const rows = measures.flatMap((each) => (each.gain ? [{ ...each, gain: each.gain }] : []));
  if (rows.length === 0) return null;
  const widest = Math.min(1, Math.max(0.1, ...rows.flatMap(({ gain }) => [Math.abs(gain.low), Math.abs(gain.high)])));
  const height = TOP + rows.length * ROW + BOTTOM;
  const middle = LEFT + (WIDTH - LEFT - RIGHT) / 2;
  const x = (gain: number) => middle + (Math.max(-widest, Math.min(widest, gain)) / widest) * ((WIDTH - LEFT - RIGHT) / 2);
  return (
    <figure class="plot gain-plot" aria-label="Gains" tabindex={0}>
      <svg viewBox={`0 0 ${WIDTH} ${height}`} role="img" aria-label="Which way is better in each measure; the table has the numbers">
        <text class="plot-mark" x={LEFT} y={18}>
          ← {second} better
        </text>
        <text class="plot-mark" x={WIDTH - RIGHT} y={18} text-anchor="end">
          {first} better →
        </text>
        <line class="gain-nought" x1={middle} x2={middle} y1={TOP - 8} y2={height - BOTTOM} />
        {rows.map(({ measure, gain, verdict }, index) => {
          const y = TOP + (index + 0.5) * ROW;
          return (
            <g class={verdict === "not told" ? "gain-open" : "gain-told"}>
              <text class="plot-mark" x={LEFT - 12} y={y} text-anchor="end" dominant-baseline="central">
                {describeMeasure(measure)?.label ?? measure}
              </text>
              <line class="gain-interval" x1={x(gain.low)} x2={x(gain.high)} y1={y} y2={y} />
              <circle cx={x(gain.middle)} cy={y} r="6" />
            </g>
          );
        })}
        <text class="plot-mark" x={middle} y={height - 10} text-anchor="middle">
          {Math.round(100 * widest)} % of the range that the aim counts, either way
        </text>
      </svg>
      <figcaption>Full dots: told apart. Open dots: what is seen may be chance. Lines: 95 % interval of the median.</figcaption>
    </figure>
  );
}

/** The same in numbers, with every measure that both ways show. */
export const PairedTable = ({ measures, first, second }: { measures: WaysCompared["measures"]; first: string; second: string }) => (
  <section class="table-frame" aria-label="Pair by pair, table" tabindex={0}>
    <table class="table">
      <thead>
        <tr>
          <th scope="col">Measure</th>
          <th scope="col">Pairs</th>
          <th scope="col">{first} better</th>
          <th scope="col">{second} better</th>
          <th scope="col">Alike</th>
          <th scope="col">Median difference</th>
          <th scope="col">95 % interval</th>
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
            <td>{each.pairs}</td>
            <td>{each.better}</td>
            <td>{each.worse}</td>
            <td>{each.alike}</td>
            <td>{signed(each.measure, each.difference)}</td>
            <td>
              {each.interval
                ? `${signed(each.measure, each.interval.low)} to ${signed(each.measure, each.interval.high)}`
                : "too few pairs"}
            </td>
            <td>{each.chance === null ? "too few differ" : chanceInWords(each.chance)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  </section>
);

const signed = (measure: string, value: number): string => `${value > 0 ? "+" : ""}${valueInWords(measure, value)}`;

const chanceInWords = (chance: number): string => (chance < 0.001 ? "below 0.001" : chance.toFixed(3));
