import type { Change } from "#domain/condition/change/change-between.ts";
import { CHANGES } from "#domain/condition/change/change-names.ts";
import { VERDICT_WORDS } from "#domain/condition/change/verdict.ts";
import { asSentence } from "#domain/sentence.ts";

/** Every number of change, its uncertainty, and in words whether it is one. */
export function ChangeNumbers({ change }: { change: Change }) {
  return (
    <section class="table-frame" aria-labelledby="change-numbers-title" tabindex={0}>
      <table class="table table-stacked change-table">
        <caption id="change-numbers-title" class="visually-hidden">
          Newer less older
        </caption>
        <thead>
          <tr>
            <th scope="col">What</th>
            <th scope="col">Newer less older</th>
            <th scope="col">Uncertainty</th>
            <th scope="col">In words</th>
          </tr>
        </thead>
        <tbody>
          {change.numbers.map((number) => {
            const { label, meaning, unit } = CHANGES[number.name];
            return (
              <tr>
                <th scope="row">
                  {label}
                  <br />
                  <span class="small soft">{meaning}</span>
                </th>
                {"absent" in number ? (
                  <td colspan={3}>Not read: {number.absent}.</td>
                ) : (
                  <>
                    <td class="change-number">{signed(number.value, unit)}</td>
                    <td class="change-number">± {figure(number.expandedUncertainty, unit)}</td>
                    <td class={`verdict-${number.verdict}`}>{asSentence(VERDICT_WORDS[number.verdict])}</td>
                  </>
                )}
              </tr>
            );
          })}
        </tbody>
      </table>
    </section>
  );
}

export const figure = (value: number, unit: string): string => `${value.toFixed(unit === "D" ? 2 : 1)} ${unit}`;

/** What rounds to nought has no sign. */
export function signed(value: number, unit: string): string {
  const size = figure(Math.abs(value), unit);
  return Number.parseFloat(size) === 0 ? size : `${value < 0 ? "−" : "+"}${size}`;
}
