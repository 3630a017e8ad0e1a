import { Layout } from "../parts/layout.tsx";
import { NotMeasuredNote } from "../parts/not-measured.tsx";
import { DoneNotice } from "../parts/notice.tsx";
import { type WorkCounts, WorkProgress } from "../parts/work-progress.tsx";

export type ShownFailure = { readonly captureId: number | null; readonly name: string | null; readonly error: string };

/** How far the measuring is, and what could not be measured. */
export const WorkPage = (props: {
  collectionName: string;
  counts: WorkCounts;
  failed: readonly ShownFailure[];
  isAsked: boolean;
  done?: string;
}) => (
  <Layout title="Measuring" section={null} collectionName={props.collectionName}>
    <div class="page page-narrow">
      <header class="page-head">
        <h1>Measuring</h1>
      </header>
      <DoneNotice done={props.done} />
      <WorkProgress counts={props.counts} isAsked={props.isAsked} />
      {props.failed.length > 0 ? (
        <section class="card" id="failed" aria-labelledby="failed-title">
          <h2 id="failed-title">Could not be measured</h2>
          <form method="post" action="/work/retry">
            <button class="button button-quiet" type="submit">
              Try {props.failed.length === 1 ? "it" : "all of them"} again
            </button>
          </form>
          <ul class="report-files">
            {props.failed.map((failure) => (
              <li class="report-file report-refused">
                {failure.captureId === null ? (
                  <>
                    <strong>A comparison of captures</strong>
                    <p>{failure.error}</p>
                  </>
                ) : (
                  <>
                    <a href={`/captures/${failure.captureId}`}>{failure.name ?? `Capture ${failure.captureId}`}</a>
                    <NotMeasuredNote captureId={failure.captureId} why={{ words: failure.error, isFailed: true }} from="work" />
                  </>
                )}
              </li>
            ))}
          </ul>
        </section>
      ) : null}
    </div>
  </Layout>
);
