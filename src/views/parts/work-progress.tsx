/** How many pieces of measuring stand where. */
export type WorkCounts = {
  readonly waiting: number;
  readonly running: number;
  readonly done: number;
  readonly failed: number;
  readonly cancelled: number;
  /** of those done, the ones since measuring last stood still */
  readonly doneOfThisRun: number;
  /** of those failed, the comparisons of captures */
  readonly failedComparisons: number;
};

/**
 * How far the measuring is. Asks for itself again every two seconds while something waits or runs,
 * and stops asking when nothing does; without script a link looks again.
 * @param isAsked this is the answer to such a question, and stands on a page that is older than it
 */
export function WorkProgress({ counts, isAsked = false }: { counts: WorkCounts; isAsked?: boolean }) {
  const open = counts.waiting + counts.running;
  const asking = open > 0 ? { "hx-get": "/work", "hx-trigger": "every 2s", "hx-select": "#work-progress", "hx-swap": "outerHTML" } : {};
  return (
    <section id="work-progress" class="work-progress" aria-label="Measuring" {...asking}>
      <p role="status">{inWords(counts)}</p>
      {open > 0 ? (
        <progress max={open + counts.doneOfThisRun} value={counts.doneOfThisRun} aria-label="Measured so far">
          {counts.doneOfThisRun} of {open + counts.doneOfThisRun}
        </progress>
      ) : null}
      <div class="actions">
        {open > 0 ? (
          <noscript>
            <a href="/work">Look again</a>
          </noscript>
        ) : null}
        {open === 0 && isAsked ? <a href="?">Show the page with the new measures</a> : null}
        {counts.waiting > 0 ? <Act action="/work/cancel" words={`Cancel the ${counts.waiting} waiting`} /> : null}
        {counts.cancelled > 0 ? <Act action="/work/resume" words={`Resume the ${counts.cancelled} cancelled`} /> : null}
        {counts.failed > 0 ? <a href="/work#failed">{counts.failed} could not be measured: see why</a> : null}
      </div>
    </section>
  );
}

const Act = ({ action, words }: { action: string; words: string }) => (
  <form method="post" action={action}>
    <button class="button button-quiet button-small" type="submit">
      {words}
    </button>
  </form>
);

function inWords({ waiting, running, done, doneOfThisRun, failed, cancelled }: WorkCounts): string {
  if (waiting + running > 0) return `Measuring: ${doneOfThisRun} done, ${running} in hand, ${waiting} waiting.`;
  if (done + failed + cancelled === 0) return "Nothing has been asked for yet.";
  if (cancelled > 0) return `Measuring was cancelled for ${cancelled}; ${done} done.`;
  return failed > 0 ? `Measuring has ended: ${done} done, ${failed} failed.` : "Everything taken in has been measured.";
}
