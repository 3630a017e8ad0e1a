import type { Refusal } from "#domain/outcome.ts";
import { counted } from "../format/counted.ts";
import { FIXITY_WORDS, type ShownFixity } from "../parts/fixity-words.ts";
import { Layout } from "../parts/layout.tsx";
import { Moment } from "../parts/moment.tsx";
import { Notice } from "../parts/notice.tsx";

export type ShownFixityRun = {
  readonly startedAt: string;
  readonly endedAt: string | null;
  readonly checked: number;
  readonly strays: readonly Refusal[];
};

export type FixityPageProps = {
  collectionName: string;
  originals: number;
  run: ShownFixityRun | null;
  isRunning: boolean;
  damaged: readonly (ShownFixity & { readonly captureId: number | null; readonly printId: number | null; readonly name: string })[];
};

/** Whether every original still is what was taken in: the last check, what it found, and a way to check again. */
export const FixityPage = ({ collectionName, originals, run, isRunning, damaged }: FixityPageProps) => (
  <Layout title="Fixity" section="overview" collectionName={collectionName}>
    <div class="page page-narrow">
      <header class="page-head">
        <div>
          <h1>Fixity</h1>
          <p>
            Each file was hashed when it was taken in. A check reads every file again and compares: so a failing disk, or a hand that
            changed a file, is noticed while there still is a copy elsewhere.
          </p>
        </div>
      </header>
      <LastCheck run={run} isRunning={isRunning} originals={originals} />
      <section class="card" aria-labelledby="damaged-title">
        <h2 id="damaged-title">Files found damaged</h2>
        {damaged.length === 0 ? (
          <p>{run === null ? "Nobody has looked yet." : "None of the files that were checked."}</p>
        ) : (
          <>
            <p>Nothing that was measured from these files counts until they are sound again: none is chosen as a master by the rule.</p>
            <ul class="report-files">
              {damaged.map(({ captureId, printId, name, outcome, checkedAt }) => (
                <li class="report-file report-refused">
                  {captureId !== null ? (
                    <a href={`/captures/${captureId}`}>{name}</a>
                  ) : printId !== null ? (
                    <>
                      {name}, a photograph of a <a href={`/prints/${printId}#survey-title`}>finding</a>
                    </>
                  ) : (
                    name
                  )}
                  <p>{FIXITY_WORDS[outcome]}.</p>
                  <p class="small soft">
                    Found on <Moment at={checkedAt} />
                  </p>
                </li>
              ))}
            </ul>
          </>
        )}
      </section>
      {run && run.strays.length > 0 ? <Strays strays={run.strays} /> : null}
    </div>
  </Layout>
);

/** Asks for itself again while a check runs; without script a link looks again. */
function LastCheck({ run, isRunning, originals }: Pick<FixityPageProps, "run" | "isRunning" | "originals">) {
  const asking = isRunning
    ? { "hx-get": "/fixity", "hx-trigger": "every 2s", "hx-select": "main", "hx-target": "#main", "hx-swap": "outerHTML" }
    : {};
  const isStopped = run !== null && run.endedAt === null && !isRunning;
  return (
    <section class="card" aria-labelledby="check-title" {...asking}>
      <h2 id="check-title">{isRunning ? "Checking now" : "Last check"}</h2>
      <p role="status">{inWords({ run, isRunning, originals })}</p>
      {run && (isRunning || isStopped) ? (
        <progress max={originals} value={run.checked} aria-label="Checked so far">
          {run.checked} of {originals}
        </progress>
      ) : null}
      <div class="actions">
        {isRunning ? (
          <>
            <noscript>
              <a href="/fixity">Look again</a>
            </noscript>
            <Act action="/fixity/stop" words="Stop" />
          </>
        ) : (
          <>
            {isStopped ? <Act action="/fixity/go-on" words="Go on with this check" /> : null}
            {originals > 0 ? <Act action="/fixity" words={run === null ? "Check all files" : "Check all files again"} /> : null}
          </>
        )}
      </div>
    </section>
  );
}

const Act = ({ action, words }: { action: string; words: string }) => (
  <form method="post" action={action}>
    <button class="button button-quiet" type="submit">
      {words}
    </button>
  </form>
);

function inWords({ run, isRunning, originals }: Pick<FixityPageProps, "run" | "isRunning" | "originals">) {
  if (run === null) return originals === 0 ? "There is no file to check yet." : "The files have not been checked since they were taken in.";
  const files = `${run.checked} of ${counted(originals, "file", "files")}`;
  if (isRunning) return `${files} checked.`;
  if (run.endedAt === null) return `A check was stopped: ${files} checked. What was found is kept.`;
  return (
    <>
      {counted(run.checked, "file", "files")} checked, <Moment at={run.endedAt} />.
    </>
  );
}

const MOST_STRAYS = 100;

const Strays = ({ strays }: { strays: readonly Refusal[] }) => (
  <section aria-labelledby="strays-title">
    <Notice level="notice">
      <h2 id="strays-title">Files that no record knows</h2>
      <p>They lie among the originals, and nothing was done to them.</p>
      <ul>
        {strays.slice(0, MOST_STRAYS).map(({ about, happened, remedy }) => (
          <li>
            <code>{about}</code>: {happened} {remedy}
          </li>
        ))}
      </ul>
      {strays.length > MOST_STRAYS ? (
        <p>And {counted(strays.length - MOST_STRAYS, "file", "files")} more; the command “check” names all.</p>
      ) : null}
    </Notice>
  </section>
);
