import { CHANGES, type ChangeName } from "#domain/condition/change/change-names.ts";

export type CurvePoint = { readonly years: number; readonly day: string; readonly value: number; readonly expandedUncertainty: number };
export type Curve = { readonly name: ChangeName; readonly points: readonly CurvePoint[] };

/** Lines are told apart by dashes, marks and words too, for no eye has to see colours. */
const DASHES = [undefined, "8 4", "2 4", "8 4 2 4"];
const MARKS = ["M-4 0a4 4 0 1 0 8 0a4 4 0 1 0-8 0z", "M-4-4h8v8h-8z", "M0-5L5 4h-10z", "M0-5.5L5.5 0L0 5.5L-5.5 0z"];
const SHORT: Partial<Record<ChangeName, string>> = {
  redDensityLoss: "Cyan dye",
  greenDensityLoss: "Magenta dye",
  blueDensityLoss: "Yellow dye",
  borderBlueDensityGain: "Border",
};
const LABEL_PX = 16;
const WIDTH = 640;
const HEIGHT = 320;
const [LEFT, RIGHT, TOP, BOTTOM] = [64, 112, 16, 44];

/** Densities lost and gained over the years since the first capture, with their uncertainties; the same numbers as a table behind it. */
export function ChangeCurve({ curves }: { curves: readonly Curve[] }) {
  const all = curves.flatMap(({ points }) => points);
  const longest = Math.max(1, ...all.map(({ years }) => years));
  const high = Math.max(0.1, ...all.map(({ value, expandedUncertainty }) => value + expandedUncertainty));
  const low = Math.min(0, ...all.map(({ value, expandedUncertainty }) => value - expandedUncertainty));
  const x = (years: number) => LEFT + (years / longest) * (WIDTH - LEFT - RIGHT);
  const y = (value: number) => HEIGHT - BOTTOM - ((value - low) / (high - low)) * (HEIGHT - BOTTOM - TOP);
  const marks = [low, 0, high].filter((value, index, values) => values.indexOf(value) === index);
  return (
    <figure class="plot change-curve">
      <svg
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        role="img"
        aria-label="Density lost or gained over the years; the table below has the numbers"
      >
        {marks.map((mark) => (
          <g class="plot-grid">
            <line x1={LEFT} x2={WIDTH - RIGHT} y1={y(mark)} y2={y(mark)} />
            <text x={LEFT - 8} y={y(mark)} text-anchor="end" dominant-baseline="central">
              {mark.toFixed(2)}
            </text>
          </g>
        ))}
        {[0, longest / 2, longest].map((mark) => (
          <text class="plot-mark" x={x(mark)} y={HEIGHT - BOTTOM + 18} text-anchor={mark === longest ? "end" : "middle"}>
            {mark.toFixed(1)}
          </text>
        ))}
        <text class="plot-mark" x={(LEFT + WIDTH - RIGHT) / 2} y={HEIGHT - 6} text-anchor="middle">
          years since the first capture
        </text>
        {curves.map(({ points }, index) => (
          <g class={`plot-line plot-line-${index}`}>
            <polyline
              fill="none"
              stroke-dasharray={DASHES[index % DASHES.length]}
              points={[{ years: 0, value: 0 }, ...points]
                .map((point) => `${x(point.years).toFixed(1)},${y(point.value).toFixed(1)}`)
                .join(" ")}
            />
            {points.map(({ years, value, expandedUncertainty }) => (
              <>
                <line
                  x1={x(years) + 3 * index}
                  x2={x(years) + 3 * index}
                  y1={y(value - expandedUncertainty)}
                  y2={y(value + expandedUncertainty)}
                />
                <path
                  class="plot-point"
                  d={MARKS[index % MARKS.length]}
                  transform={`translate(${x(years).toFixed(1)} ${y(value).toFixed(1)})`}
                />
              </>
            ))}
          </g>
        ))}
        {labelPlaces(curves, y).map(({ name, at }) => (
          <text class="plot-mark" x={WIDTH - RIGHT + 12} y={at} dominant-baseline="central">
            {SHORT[name] ?? CHANGES[name].label}
          </text>
        ))}
      </svg>
      <figcaption>
        <ul class="plot-legend">
          {curves.map(({ name }, index) => (
            <li>
              <svg viewBox="0 0 40 11" width="40" height="11" aria-hidden="true">
                <line
                  class={`plot-line plot-line-${index}`}
                  stroke-dasharray={DASHES[index % DASHES.length]}
                  x1="0"
                  x2="40"
                  y1="5"
                  y2="5"
                />
                <path
                  class={`plot-line plot-line-${index} plot-point`}
                  d={MARKS[index % MARKS.length]}
                  transform="translate(20 5.5) scale(0.85)"
                />
              </svg>
              {CHANGES[name].label}
            </li>
          ))}
        </ul>
        <details>
          <summary>The numbers</summary>
          <section class="plot-numbers" aria-label="Density lost or gained" tabindex={0}>
            <table class="table">
              <thead>
                <tr>
                  <th scope="col">What</th>
                  <th scope="col">Captured</th>
                  <th scope="col">Years</th>
                  <th scope="col">D</th>
                </tr>
              </thead>
              <tbody>
                {curves.flatMap(({ name, points }) =>
                  points.map(({ day, years, value, expandedUncertainty }) => (
                    <tr>
                      <th scope="row">{CHANGES[name].label}</th>
                      <td>{day}</td>
                      <td class="change-number">{years.toFixed(1)}</td>
                      <td class="change-number">
                        {value.toFixed(3)} ± {expandedUncertainty.toFixed(3)}
                      </td>
                    </tr>
                  )),
                )}
              </tbody>
            </table>
          </section>
        </details>
      </figcaption>
    </figure>
  );
}

/** Names stand at the curves' ends, moved apart where they would lie on each other. */
function labelPlaces(curves: readonly Curve[], y: (value: number) => number): { name: ChangeName; at: number }[] {
  const ends = curves.map(({ name, points }) => ({ name, at: y(points.at(-1)?.value ?? 0) })).toSorted((a, b) => a.at - b.at);
  for (const [index, end] of ends.entries()) {
    const above = ends[index - 1];
    if (above) end.at = Math.max(end.at, above.at + LABEL_PX);
  }
  const over = Math.max(0, (ends.at(-1)?.at ?? 0) - (HEIGHT - BOTTOM));
  return ends.map(({ name, at }) => ({ name, at: at - over }));
}
