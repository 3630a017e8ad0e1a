import { LETTERS, type Step } from "#domain/plan/worked-out.ts";

/** By which formula each figure of the plan came about, with its unit and who says so. */
export const PlanFormulas = ({ steps }: { steps: readonly Step[] }) => (
  <details class="plan-formulas">
    <summary>How this is worked out</summary>
    <p class="small soft">{LETTERS}</p>
    <section class="table-frame" aria-label="Formulas of this plan" tabindex={0}>
      <table class="table">
        <thead>
          <tr>
            <th scope="col">What</th>
            <th scope="col">Here</th>
            <th scope="col">Formula</th>
            <th scope="col">Source</th>
          </tr>
        </thead>
        <tbody>
          {steps.map(({ what, here, unit, formula, source }) => (
            <tr>
              <th scope="row">{what}</th>
              <td class="plan-here">{Number.isFinite(here) ? `${inFigures(here)} ${unit}` : "without end"}</td>
              <td>{formula}</td>
              <td class="small soft">{source}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  </details>
);

/** Three figures that count, whole from a hundred on; no exponents. */
const inFigures = (value: number): string => {
  if (Math.abs(value) >= 100) return String(Math.round(value)).replace("-", "−");
  return String(Number(value.toPrecision(3))).replace("-", "−");
};
