import type { Refusal } from "#domain/outcome.ts";

/** What could not be done and what to do now; takes the eye and the screen reader at once. */
export function Refusals({ refusals }: { refusals: readonly Refusal[] }) {
  if (refusals.length === 0) return null;
  return (
    <div class="refusals" role="alert">
      <ul>
        {refusals.map((refusal) => (
          <li>
            {refusal.about ? <strong>{refusal.about}: </strong> : null}
            {refusal.happened} <span class="remedy">{refusal.remedy}</span>
          </li>
        ))}
      </ul>
    </div>
  );
}
