import { z } from "zod";

const curve = z.object({ label: z.string(), cyPerMm: z.array(z.number()).min(2), modulation: z.array(z.number()).min(2) });

export type SfrCurve = z.output<typeof curve>;

/** The curves kept with a reading of resolution; none where it kept none. */
export function curvesOf(detail: Readonly<Record<string, unknown>> | undefined): SfrCurve[] {
  const read = z.array(curve).safeParse(detail?.curves);
  return read.success ? read.data : [];
}

const WIDTH = 640;
const HEIGHT = 320;
const LEFT = 52;
const BOTTOM = 44;
const TOP = 12;
const RIGHT = 12;
const DASHES = ["", "8 4", "2 4", "8 4 2 4", "12 3", "4 2", "1 3", "10 2 2 2"];

/**
 * Contrast kept (or another share) against fineness of pattern, one line a curve, with the same numbers as a table behind it.
 * @param share what the curves tell, as the head of a column
 */
export function SfrPlot({ curves, share = "Contrast kept" }: { curves: readonly SfrCurve[]; share?: string }) {
  const finest = Math.max(...curves.flatMap((curve) => curve.cyPerMm));
  const highest = Math.max(1, ...curves.flatMap((curve) => curve.modulation));
  const step = roundStep(finest / 6);
  const x = (cyPerMm: number) => LEFT + (cyPerMm / finest) * (WIDTH - LEFT - RIGHT);
  const y = (modulation: number) => HEIGHT - BOTTOM - (modulation / highest) * (HEIGHT - BOTTOM - TOP);
  const marks = Array.from({ length: Math.floor(finest / step) + 1 }, (_, index) => index * step);
  return (
    <figure class="plot">
      <svg
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        role="img"
        aria-label={`${share} at each fineness of pattern; the table below has the numbers`}
      >
        {[0, 0.1, 0.5, 1].map((level) => (
          <g class="plot-grid">
            <line x1={LEFT} x2={WIDTH - RIGHT} y1={y(level)} y2={y(level)} />
            <text x={LEFT - 8} y={y(level)} text-anchor="end" dominant-baseline="central">
              {level * 100} %
            </text>
          </g>
        ))}
        {marks.map((mark) => (
          <text class="plot-mark" x={x(mark)} y={HEIGHT - BOTTOM + 18} text-anchor="middle">
            {shortFigure(mark)}
          </text>
        ))}
        <text class="plot-mark" x={(LEFT + WIDTH - RIGHT) / 2} y={HEIGHT - 6} text-anchor="middle">
          cycles per mm of the print
        </text>
        {curves.map((curve, index) => (
          <polyline
            class={`plot-line plot-line-${index % DASHES.length}`}
            fill="none"
            stroke-dasharray={DASHES[index % DASHES.length]}
            points={curve.cyPerMm.map((f, i) => `${x(f).toFixed(1)},${y(curve.modulation[i] ?? 0).toFixed(1)}`).join(" ")}
          />
        ))}
      </svg>
      <figcaption>
        <ul class="plot-legend">
          {curves.map((curve, index) => (
            <li>
              <svg viewBox="0 0 40 10" width="40" height="10" aria-hidden="true">
                <line
                  class={`plot-line plot-line-${index % DASHES.length}`}
                  stroke-dasharray={DASHES[index % DASHES.length]}
                  x1="0"
                  y1="5"
                  x2="40"
                  y2="5"
                />
              </svg>
              {curve.label}
            </li>
          ))}
        </ul>
      </figcaption>
      <details>
        <summary>The curves as a table</summary>
        <div class="plot-numbers">
          {curves.map((curve) => (
            <CurveTable curve={curve} share={share} />
          ))}
        </div>
      </details>
    </figure>
  );
}

function CurveTable({ curve, share }: { curve: SfrCurve; share: string }) {
  return (
    <table class="table">
      <caption>{curve.label}</caption>
      <thead>
        <tr>
          <th scope="col">Cycles per mm</th>
          <th scope="col">{share}</th>
        </tr>
      </thead>
      <tbody>
        {curve.cyPerMm.map((f, index) => (
          <tr>
            <td>{f.toFixed(2)}</td>
            <td>{((curve.modulation[index] ?? 0) * 100).toFixed(1)} %</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** 1, 2 or 5 times a power of ten, so that the axis carries figures people read at a glance. */
function roundStep(rough: number): number {
  const power = 10 ** Math.floor(Math.log10(rough));
  const lead = rough / power;
  return (lead > 5 ? 10 : lead > 2 ? 5 : lead > 1 ? 2 : 1) * power;
}

const shortFigure = (value: number) => String(Number(value.toPrecision(3)));
