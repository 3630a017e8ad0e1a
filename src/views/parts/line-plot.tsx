import { capital } from "#domain/sentence.ts";

/** One line of a plot: as many x as y. stroke: which of the strokes, where one thing keeps its own over several plots */
export type PlotLine = {
  readonly label: string;
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly stroke?: number;
};

/** inWords: for the table; onAxis: shorter, where the axis can do with less */
type Axis = { readonly title: string; readonly inWords: (value: number) => string; readonly onAxis?: (value: number) => string };

const WIDTH = 640;
const HEIGHT = 320;
/** Room for figures as large as a phone needs them (measures.css). */
const LEFT = 76;
const BOTTOM = 56;
const TOP = 16;
const RIGHT = 24;
const DASHES = ["", "8 4", "2 4", "8 4 2 4", "12 3", "4 2", "1 3", "10 2 2 2"];

/**
 * Lines told apart by their strokes, with the same numbers as tables behind them.
 * @param said what the plot shows, for those who do not see it
 * @param across its axis starts at 0
 * @param up levels that are ruled and named; the highest line fits too
 */
export function LinePlot(props: {
  lines: readonly PlotLine[];
  said: string;
  across: Axis & { readonly to?: number };
  up: Axis & { readonly levels?: readonly number[] };
}) {
  const { lines, said, across, up } = props;
  const farthest = across.to ?? Math.max(...lines.flatMap((line) => line.x));
  const highestLine = Math.max(...lines.flatMap((line) => line.y));
  const levels = up.levels ?? marksTo(highestLine, 4);
  const highest = Math.max(highestLine, ...levels);
  const x = (value: number) => LEFT + (value / farthest) * (WIDTH - LEFT - RIGHT);
  const y = (value: number) => HEIGHT - BOTTOM - (value / highest) * (HEIGHT - BOTTOM - TOP);
  return (
    <figure class="plot">
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={`${said}; the table below has the numbers`}>
        {levels.map((level) => (
          <g class="plot-grid">
            <line x1={LEFT} x2={WIDTH - RIGHT} y1={y(level)} y2={y(level)} />
            <text x={LEFT - 8} y={y(level)} text-anchor="end" dominant-baseline="central">
              {(up.onAxis ?? up.inWords)(level)}
            </text>
          </g>
        ))}
        {marksTo(farthest, 6).map((mark) => (
          <text class="plot-mark" x={x(mark)} y={HEIGHT - BOTTOM + 22} text-anchor="middle">
            {shortFigure(mark)}
          </text>
        ))}
        <text class="plot-mark" x={(LEFT + WIDTH - RIGHT) / 2} y={HEIGHT - 6} text-anchor="middle">
          {across.title}
        </text>
        {lines.map((line, index) => (
          <polyline
            {...strokeOf(line, index)}
            fill="none"
            points={line.x.map((at, i) => `${x(at).toFixed(1)},${y(line.y[i] ?? 0).toFixed(1)}`).join(" ")}
          />
        ))}
      </svg>
      <figcaption>
        <ul class="plot-legend">
          {lines.map((line, index) => (
            <li>
              <svg viewBox="0 0 40 10" width="40" height="10" aria-hidden="true">
                <line {...strokeOf(line, index)} x1="0" y1="5" x2="40" y2="5" />
              </svg>
              {line.label}
            </li>
          ))}
        </ul>
      </figcaption>
      <details>
        <summary>The curves as a table</summary>
        <div class="plot-numbers">
          {lines.map((line) => (
            <LineTable line={line} across={across} up={up} />
          ))}
        </div>
      </details>
    </figure>
  );
}

function strokeOf({ stroke }: PlotLine, index: number) {
  const which = (stroke ?? index) % DASHES.length;
  return { class: `plot-line plot-line-${which}`, "stroke-dasharray": DASHES[which] };
}

const LineTable = ({ line, across, up }: { line: PlotLine; across: Axis; up: Axis }) => (
  <table class="table">
    <caption>{line.label}</caption>
    <thead>
      <tr>
        <th scope="col">{capital(across.title)}</th>
        <th scope="col">{up.title}</th>
      </tr>
    </thead>
    <tbody>
      {line.x.map((at, index) => (
        <tr>
          <td>{across.inWords(at)}</td>
          <td>{up.inWords(line.y[index] ?? 0)}</td>
        </tr>
      ))}
    </tbody>
  </table>
);

/** From 0, at 1, 2 or 5 times a power of ten, so that the axis carries figures people read at a glance. */
function marksTo(most: number, about: number): number[] {
  if (!(most > 0)) return [0];
  const rough = most / about;
  const power = 10 ** Math.floor(Math.log10(rough));
  const lead = rough / power;
  const step = (lead > 5 ? 10 : lead > 2 ? 5 : lead > 1 ? 2 : 1) * power;
  return Array.from({ length: Math.floor(most / step + 1e-9) + 1 }, (_, index) => index * step);
}

/** A figure to three places, as plots and their tables write it. */
export const shortFigure = (value: number) => String(Number(value.toPrecision(3)));
