import type { AperturePlan } from "#domain/plan/camera-plan.ts";

const WIDTH = 640;
const HEIGHT = 280;
const [LEFT, RIGHT, TOP, BOTTOM] = [72, 24, 12, 44];

/** What each aperture leaves of the contrast, in the plane of focus and at the ends of the depth; the same numbers as a table behind it. */
export function AperturePlot({ plan }: { plan: AperturePlan }) {
  const { responses, used } = plan;
  const x = (index: number) => LEFT + (index / (responses.length - 1)) * (WIDTH - LEFT - RIGHT);
  const y = (share: number) => HEIGHT - BOTTOM - share * (HEIGHT - TOP - BOTTOM);
  const curve = (pick: (of: (typeof responses)[number]) => number) =>
    responses.map((response, index) => `${x(index).toFixed(1)},${y(Math.max(0, pick(response))).toFixed(1)}`).join(" ");
  return (
    <figure class="plot">
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label="Contrast left by each aperture; the table below has the numbers">
        {[0, 0.25, 0.5, 0.75, 1].map((level) => (
          <g class="plot-grid">
            <line x1={LEFT} x2={WIDTH - RIGHT} y1={y(level)} y2={y(level)} />
            <text x={LEFT - 8} y={y(level)} text-anchor="end" dominant-baseline="central">
              {Math.round(100 * level)} %
            </text>
          </g>
        ))}
        {responses.map(({ fNumber }, index) =>
          index % 3 === 0 ? (
            <text class="plot-mark" x={x(index)} y={HEIGHT - BOTTOM + 18} text-anchor="middle">
              f/{fNumber}
            </text>
          ) : null,
        )}
        <g class="plot-line plot-line-0">
          <polyline fill="none" points={curve(({ inFocus }) => inFocus)} />
        </g>
        <g class="plot-line plot-line-1">
          <polyline fill="none" stroke-dasharray="8 4" points={curve(({ atTheEnds }) => atTheEnds)} />
        </g>
      </svg>
      <figcaption>
        <p>
          Full line: in the plane of focus, where diffraction takes more the smaller the opening. Dashed: at the highest and lowest place of
          the print. Both at {plan.atCyPerMm.toFixed(1)} cy/mm, for a lens without faults: a real one leaves less.
        </p>
        <details>
          <summary>The numbers</summary>
          <section class="plot-numbers" aria-label="Contrast left by each aperture" tabindex={0}>
            <table class="table">
              <thead>
                <tr>
                  <th scope="col">Aperture</th>
                  <th scope="col">In focus</th>
                  <th scope="col">At the ends of the depth</th>
                </tr>
              </thead>
              <tbody>
                {responses.map(({ fNumber, inFocus, atTheEnds }) => (
                  <tr>
                    <th scope="row">
                      f/{fNumber}
                      {used?.fNumber === fNumber ? " (planned)" : ""}
                    </th>
                    <td>{Math.round(100 * Math.max(0, inFocus))} %</td>
                    <td>{Math.round(100 * Math.max(0, atTheEnds))} %</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
        </details>
      </figcaption>
    </figure>
  );
}
