import type { Refusal } from "#domain/outcome.ts";
import type { ImportReport } from "#domain/storage/climate/import-report.ts";
import { counted } from "../format/counted.ts";
import { ImportReportView } from "../parts/import-report.tsx";
import { Layout } from "../parts/layout.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";

export type ClimateProgressPageProps = {
  collectionName: string;
  place: { readonly id: number; readonly name: string };
  token: string;
  fileName: string;
  state:
    | { readonly state: "waiting" }
    | { readonly state: "running"; readonly rows: number; readonly share: number }
    | { readonly state: "done"; readonly report: ImportReport }
    | { readonly state: "refused"; readonly refusals: readonly Refusal[] };
};

/** How far a file has been read, and what became of it. Asks for itself again while it is read; without script a link looks again. */
export function ClimateProgressPage({ collectionName, place, token, fileName, state }: ClimateProgressPageProps) {
  const address = `/places/${place.id}/climate/files/${token}`;
  const isRunning = state.state === "running";
  const asking = isRunning
    ? { "hx-get": `${address}/progress`, "hx-trigger": "every 1s", "hx-select": "#climate-import", "hx-swap": "outerHTML" }
    : {};
  return (
    <Layout title="Reading the logger's file" section="places" collectionName={collectionName}>
      <div class="page">
        <header class="page-head">
          <div>
            <h1>Reading {fileName}</h1>
            <p>into {place.name}</p>
          </div>
        </header>
        <section id="climate-import" class="card" aria-label="Import" {...asking}>
          {state.state === "running" ? (
            <>
              <p role="status">
                {counted(state.rows, "row", "rows")} read. You may leave this page: it goes on. Nothing is kept before the end.
              </p>
              <progress max={100} value={Math.round(state.share * 100)} aria-label="Read so far">
                {Math.round(state.share * 100)} %
              </progress>
              <div class="actions">
                <noscript>
                  <a href={`${address}/progress`}>Look again</a>
                </noscript>
                <form method="post" action={`${address}/stop`}>
                  <button class="button button-quiet" type="submit">
                    Stop, and keep nothing
                  </button>
                </form>
              </div>
            </>
          ) : null}
          {state.state === "done" ? (
            <>
              <div role="status">
                <ImportReportView report={state.report} />
              </div>
              <p>
                <a class="button" href={`/places/${place.id}/climate?stretch=all`}>
                  See the climate of {place.name}
                </a>
              </p>
            </>
          ) : null}
          {state.state === "refused" ? (
            <>
              <RefusalSummary refusals={state.refusals} labels={{}} title="Nothing was kept of this file" />
              <p class="actions">
                <a class="button" href={address}>
                  Say anew how to read it
                </a>
                <a href={`/places/${place.id}/climate`}>Leave it</a>
              </p>
            </>
          ) : null}
          {state.state === "waiting" ? (
            <p>
              The file waits. <a href={address}>Say how to read it</a>
            </p>
          ) : null}
        </section>
      </div>
    </Layout>
  );
}
