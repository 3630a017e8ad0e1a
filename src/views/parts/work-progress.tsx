/** How many pieces of measuring stand where. */
export type WorkCounts = {
  readonly waiting: number;
  readonly running: number;
  readonly done: number;
  readonly failed: number;
  readonly cancelled: number;
};

/**
 * How far the measuring is. Asks for itself again every two seconds while something waits or runs
 * and stops asking when nothing does; without script there is a link to look again.
 */
export function WorkProgress({ counts }: { counts: WorkCounts }) {
  const open = counts.waiting + counts.running;
  const all = open + counts.done;
  const asking = open > 0 ? { "hx-get": "/work", "hx-trigger": "every 2s", "hx-select": "#work-progress", "hx-swap": "outerHTML" } : {};
  return (
    <section id="work-progress" class="work-progress" aria-label="Measuring" {...asking}>
      <p class="work-words" role="status">
        {inWords(counts)}
      </p>
      {open > 0 ? (
        <>
          <progress max={all} value={counts.done} aria-label="Measured">
            {counts.done} of {all}
          </progress>
          <noscript>
            <a href="/work">Look again</a>
          </noscript>
        </>
      ) : null}
      <div class="work-actions">
        {counts.waiting > 0 ? (
          <form method="post" action="/work/cancel">
            <button type="submit" class="button button-quiet">
              Cancel what waits
            </button>
          </form>
        ) : null}
        {counts.cancelled > 0 ? (
          <form method="post" action="/work/resume">
            <button type="submit" class="button button-quiet">
              Resume {counts.cancelled} cancelled
            </button>
          </form>
        ) : null}
        {counts.failed > 0 ? <a href="/work#failed">{counts.failed} could not be measured: see why</a> : null}
      </div>
    </section>
  );
}

function inWords({ waiting, running, done, failed, cancelled }: WorkCounts): string {
  if (waiting + running > 0) return `Measuring: ${done} done, ${running} in hand, ${waiting} waiting.`;
  if (done + failed + cancelled === 0) return "Nothing has been asked for yet.";
  if (cancelled > 0) return `Measuring was cancelled for ${cancelled}; ${done} done.`;
  return failed > 0 ? `Measuring has ended: ${done} done, ${failed} failed.` : "Everything taken in has been measured.";
}
