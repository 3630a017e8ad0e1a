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
            <th scope="col">Formula, and who gives it</th>
          </tr>
        </thead>
        <tbody>
          {steps.map(({ what, here, unit, formula, source }) => (
            <tr>
              <th scope="row">{what}</th>
              <td class="plan-here">{Number.isFinite(here) ? `${inFigures(here)}${unit === "°" ? "" : " "}${unit}` : "without end"}</td>
              <td class="plan-formula">
                {formula}
                <span class="second-line">{source}</span>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  </details>
);

/** Four figures that count, all of a whole number, and no exponents. */
const inFigures = (value: number): string => {
  const shown = Math.abs(value) >= 1000 ? Math.round(value) : Number(value.toPrecision(4));
  return String(shown).replace("-", "−");
};
