import type { Advice } from "#domain/recapture/recapture-line.ts";

type Props = { advice: readonly Advice[]; objectNumber: string; purposeKey: string };

/** What to change, each with its source, and the way to a plan for this print where only that tells how far. */
export const AdviceList = ({ advice, objectNumber, purposeKey }: Props) =>
  advice.length === 0 ? null : (
    <ul class="advice">
      {advice.map(({ sentence, source, needsPlan }) => (
        <li>
          {sentence}{" "}
          {needsPlan ? (
            <span class="advice-plan">
              <a href={`/plan?${new URLSearchParams({ objectNumber, purpose: purposeKey })}`}>Plan works out how far</a>.{" "}
            </span>
          ) : null}
          <span class="second-line advice-source">{source}</span>
        </li>
      ))}
    </ul>
  );
