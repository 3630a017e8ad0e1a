import type { ClimateDay } from "#domain/storage/climate/days.ts";
import { MonthTable } from "./month-table.tsx";

type ChartProps = {
  steps: readonly ClimateDay[];
  stepSeconds: number;
  fromSeconds: number;
  toSeconds: number;
  /** bounds of the published limit, drawn as lines */
  temperatureBounds: readonly number[];
  humidityBounds: readonly number[];
};

const WIDTH = 900;
const LEFT = 46;
const PANEL = 150;
const GAP = 34;
/** above the upper panel, for its name */
const TOP = 26;
const HEIGHT = TOP + 2 * PANEL + GAP + 30;

/** Temperature above, humidity below: the band from lowest to highest and the mean in it; breaks where nothing was read. */
export const ClimateChart = (props: ChartProps) => (
  <figure class="plot climate-chart">
    <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-labelledby="climate-chart-title climate-chart-text">
      <title id="climate-chart-title">Temperature and relative humidity over time</title>
      <desc id="climate-chart-text">The figures stand in the table below.</desc>
      <Panel {...props} top={TOP} quantity="temperatureC" unit="°C" bounds={props.temperatureBounds} />
      <Panel {...props} top={TOP + PANEL + GAP} quantity="humidityPercent" unit="%" bounds={props.humidityBounds} />
      <TimeAxis {...props} />
    </svg>
    <figcaption class="small soft">
      The band reaches from the lowest to the highest reading of each {stepInWords(props.stepSeconds)}, the line is its mean; broken lines
      are the published limits. Where the line breaks, nothing was read.
    </figcaption>
    <details>
      <summary>The figures month by month</summary>
      <MonthTable days={props.steps} />
    </details>
  </figure>
);

function Panel(props: ChartProps & { top: number; quantity: "temperatureC" | "humidityPercent"; unit: string; bounds: readonly number[] }) {
  const { steps, stepSeconds, fromSeconds, toSeconds, top, quantity, unit, bounds } = props;
  const told = steps.flatMap((step) => (step[quantity] ? [{ at: step.startSeconds, ...step[quantity] }] : []));
  const label = `${quantity === "temperatureC" ? "Temperature" : "Relative humidity"}, ${unit}`;
  if (told.length === 0)
    return (
      <text x={LEFT} y={top + PANEL / 2}>
        {label}: no reading in this stretch
      </text>
    );
  const { least, most, ticks } = scaleOf([...told.map((step) => step.least), ...told.map((step) => step.most), ...bounds]);
  const x = (at: number) => LEFT + ((at + stepSeconds / 2 - fromSeconds) / (toSeconds - fromSeconds)) * (WIDTH - LEFT - 8);
  const y = (value: number) => top + PANEL - ((value - least) / (most - least)) * PANEL;
  const runs = unbroken(told, stepSeconds);
  return (
    <g>
      <g class="plot-grid">
        {ticks.map((tick) => (
          <>
            <line x1={LEFT} x2={WIDTH - 8} y1={y(tick)} y2={y(tick)} />
            <text x={LEFT - 6} y={y(tick) + 4} text-anchor="end">
              {tick}
            </text>
          </>
        ))}
      </g>
      {runs.map((run) => (
        <>
          <path class={`climate-band climate-band-${quantity}`} d={bandOf(run, x, y)} />
          <path class={`climate-mean climate-mean-${quantity}`} fill="none" d={lineOf(run.map((step) => [x(step.at), y(step.mean)]))} />
        </>
      ))}
      {bounds.map((bound) => (
        <line class="climate-bound" x1={LEFT} x2={WIDTH - 8} y1={y(bound)} y2={y(bound)} />
      ))}
      <text class="climate-label" x={LEFT} y={top - 8}>
        {label}
      </text>
    </g>
  );
}

type Step = { readonly at: number; readonly least: number; readonly most: number; readonly mean: number };

function unbroken(steps: readonly Step[], stepSeconds: number): Step[][] {
  const runs: Step[][] = [];
  let before = Number.NaN;
  for (const step of steps) {
    if (step.at - before === stepSeconds) runs.at(-1)?.push(step);
    else runs.push([step]);
    before = step.at;
  }
  return runs;
}

type Along = (value: number) => number;

/** A step alone still shows as a thin upright. */
function bandOf(run: readonly Step[], x: Along, y: Along): string {
  const over = run.map((step): [number, number] => [x(step.at), y(step.most)]);
  const back = run.toReversed().map((step): [number, number] => [x(step.at) + (run.length === 1 ? 1.5 : 0), y(step.least)]);
  return `${lineOf([...over, ...back])}Z`;
}

const lineOf = (points: readonly (readonly number[])[]): string =>
  points.map(([x = 0, y = 0], index) => `${index === 0 ? "M" : "L"}${x.toFixed(1)} ${y.toFixed(1)}`).join("");

function scaleOf(values: readonly number[]): { least: number; most: number; ticks: number[] } {
  const low = Math.min(...values);
  const high = Math.max(...values);
  const step = [1, 2, 5, 10, 20, 50].find((each) => (high - low) / each <= 6) ?? 50;
  const least = Math.floor(low / step) * step;
  const most = Math.max(Math.ceil(high / step) * step, least + step);
  return { least, most, ticks: Array.from({ length: Math.round((most - least) / step) + 1 }, (_, index) => least + index * step) };
}

const TICKS = 7;

function TimeAxis({ fromSeconds, toSeconds }: ChartProps) {
  const days = (toSeconds - fromSeconds) / 86_400;
  const format = new Intl.DateTimeFormat("en-GB", {
    timeZone: "UTC",
    ...(days > 60 ? { month: "short", year: "numeric" } : { day: "numeric", month: "short" }),
  });
  return (
    <g>
      {Array.from({ length: TICKS }, (_, index) => {
        const share = index / (TICKS - 1);
        const anchor = index === 0 ? "start" : index === TICKS - 1 ? "end" : "middle";
        return (
          <text x={LEFT + share * (WIDTH - LEFT - 8)} y={HEIGHT - 8} text-anchor={anchor}>
            {format.format(new Date((fromSeconds + share * (toSeconds - fromSeconds)) * 1000))}
          </text>
        );
      })}
    </g>
  );
}

const stepInWords = (seconds: number): string =>
  seconds <= 3600 ? "hour" : seconds <= 86_400 ? "day" : seconds <= 7 * 86_400 ? "week" : "thirty days";
