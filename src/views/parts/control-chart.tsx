import { boundInWords } from "#domain/aim/measure-words.ts";
import { TARGET_MEASURES, type TargetMeasureName } from "#domain/aim/target-measures.ts";
import { dateInWords } from "#domain/print/date.ts";
import type { Charted } from "#domain/target/charted-checks.ts";
import { type CheckValue, type Drift, driftOf } from "#domain/target/drift.ts";

import { counted } from "../format/counted.ts";

const WIDTH = 420;
const HEIGHT = 150;
const [LEFT, RIGHT, TOP, BOTTOM] = [52, 12, 12, 26];

/** A measure from check to check, with the limit that the aim sets and the limits that its own past sets; the numbers stand below. */
export function ControlChart(props: Charted & { measure: TargetMeasureName; most: number | null; least: number | null }) {
  const { measure, values, bound, leftOut, most, least } = props;
  const inWords = (value: number) => boundInWords(measure, value, bound);
  // what the shown decimals do not tell has not moved
  const drift = driftOf(values, 10 ** -TARGET_MEASURES[measure].decimals);
  if (!drift) return null;
  const bounds = [most, least, drift.limits?.high ?? null, drift.limits?.low ?? null].filter((bound) => bound !== null);
  const all = [...values.map(({ value }) => value), ...bounds, 0];
  const [low, high] = [Math.min(...all), Math.max(...all, 1e-9)];
  const x = (index: number) => LEFT + ((index + 0.5) / values.length) * (WIDTH - LEFT - RIGHT);
  const y = (value: number) => HEIGHT - BOTTOM - ((value - low) / (high - low || 1)) * (HEIGHT - TOP - BOTTOM);
  const line = (value: number | null, name: string) =>
    value === null ? null : <line class={name} x1={LEFT} x2={WIDTH - RIGHT} y1={y(value)} y2={y(value)} />;
  return (
    <figure class="plot control-chart">
      <h3>{TARGET_MEASURES[measure].label}</h3>
      <svg
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        role="img"
        aria-label={`${TARGET_MEASURES[measure].label} from check to check; the numbers stand below`}
      >
        {[low, high].map((mark) => (
          <text class="plot-mark" x={LEFT - 6} y={y(mark)} text-anchor="end" dominant-baseline="central">
            {mark.toFixed(TARGET_MEASURES[measure].decimals)}
          </text>
        ))}
        {line(most, "chart-limit")}
        {line(least, "chart-limit")}
        {line(drift.limits?.low ?? null, "chart-natural")}
        {line(drift.limits?.high ?? null, "chart-natural")}
        <g class="plot-line plot-line-0">
          <polyline fill="none" points={values.map(({ value }, index) => `${x(index).toFixed(1)},${y(value).toFixed(1)}`).join(" ")} />
          {values.map(({ value }, index) => (
            <circle class="chart-point" cx={x(index)} cy={y(value)} r="4" />
          ))}
        </g>
      </svg>
      <figcaption>
        <p>
          {driftInWords(inWords, values, drift)}
          {leftOut > 0
            ? ` ${counted(leftOut, "check that cannot be set beside these is", "checks that cannot be set beside these are")} left out.`
            : ""}
        </p>
        <details>
          <summary>The numbers</summary>
          <ol class="chart-values">
            {values.map(({ day, value }) => (
              <li>
                {dateInWords(day)}: {inWords(value)}
              </li>
            ))}
          </ol>
        </details>
      </figcaption>
    </figure>
  );
}

/** Whether the set-up still does what it did, in a sentence. */
function driftInWords(inWords: (value: number) => string, values: readonly CheckValue[], { mean, limits, state }: Drift): string {
  const latest = inWords(values.at(-1)?.value ?? 0);
  if (state === "first") return `${latest}: the first check, to hold later ones against.`;
  if (state === "too few")
    return `${latest}, where earlier checks read ${inWords(mean)} on average. Five earlier checks tell what is usual; there are ${values.length - 1}.`;
  const usual = `${inWords(limits?.low ?? 0)} to ${inWords(limits?.high ?? 0)}`;
  return state === "moved"
    ? `${latest}: it has moved. Earlier checks let one expect ${usual}. Look for what was changed: light, lens, focus, settings.`
    : `${latest}: steady, within what earlier checks let one expect (${usual}).`;
}
