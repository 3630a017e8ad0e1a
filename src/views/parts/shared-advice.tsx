import type { Advice, RecaptureLine } from "#domain/recapture/recapture-line.ts";
import { counted } from "../format/counted.ts";

/** Fewer rows say it themselves. */
const SEVERAL = 3;

/** Advice that several rows would repeat word for word, with how many, the most frequent first; `number` names it on the page. */
export type SharedAdvice = Advice & { readonly number: number; readonly rows: number };

/**
 * What to change that is said for several rows alike. Which method to use, and which never again, stays with each print; so does what
 * only a plan of the print completes.
 */
export function sharedAdvice(lines: readonly Pick<RecaptureLine, "reasons">[]): SharedAdvice[] {
  const said = new Map<string, { advice: Advice; rows: number }>();
  for (const { reasons } of lines) {
    const ofRow = new Map(reasons.flatMap(({ advice }) => advice).map((each) => [each.sentence, each]));
    for (const [sentence, advice] of ofRow) {
      if (advice.needsPlan) continue;
      said.set(sentence, { advice, rows: (said.get(sentence)?.rows ?? 0) + 1 });
    }
  }
  return [...said.values()]
    .filter(({ rows }) => rows >= SEVERAL)
    .sort((a, b) => b.rows - a.rows)
    .map(({ advice, rows }, index) => ({ ...advice, rows, number: index + 1 }));
}

/** Said once above the rows. */
export const SharedAdviceList = ({ shared }: { shared: readonly SharedAdvice[] }) =>
  shared.length === 0 ? null : (
    <section class="card stack" aria-labelledby="shared-advice-title">
      <h2 id="shared-advice-title">What to change for several of these</h2>
      <ol class="shared-advice">
        {shared.map(({ sentence, source, rows, number }) => (
          <li id={`advice-${number}`}>
            {sentence} <span class="soft">For {counted(rows, "side", "sides")} on this page.</span>
            <span class="second-line advice-source">{source}</span>
          </li>
        ))}
      </ol>
    </section>
  );

/** In a row, in the place of what stands above. */
export function SeeShared({ advice, shared }: { advice: readonly Advice[]; shared: readonly SharedAdvice[] }) {
  const meant = shared.filter(({ sentence }) => advice.some((each) => each.sentence === sentence));
  return meant.length === 0 ? null : (
    <p class="small">
      What to change:{" "}
      {meant.map(({ number }, index) => (
        <>
          {index > 0 ? ", " : ""}
          <a href={`#advice-${number}`}>number {number} above</a>
        </>
      ))}
    </p>
  );
}
