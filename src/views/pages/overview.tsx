import { capital } from "#domain/sentence.ts";
import { counted, inFigures } from "../format/counted.ts";
import { CaptureCard, type ShownCapture } from "../parts/capture-card.tsx";
import { Layout } from "../parts/layout.tsx";
import { DoneNotice, Notice } from "../parts/notice.tsx";
import { type WorkCounts, WorkProgress } from "../parts/work-progress.tsx";

export type ShownCounts = {
  readonly prints: number;
  readonly captures: number;
  readonly masters: number;
  readonly printsWithoutCapture: number;
  readonly fallShort: number;
  readonly toRecapture: number;
  readonly inTray: number;
  /** files that are not what was taken in */
  readonly damaged: number;
};

type RecentCapture = ShownCapture & {
  readonly print: { readonly id: number; readonly objectNumber: string; readonly title: string } | null;
};

export type OverviewPageProps = {
  collectionName: string;
  counts: ShownCounts;
  /** captures of which something was read by an older version of its method */
  measuredByOlderVersions: number;
  /** prints whose masters the rule chose by aims that have changed since */
  chosenByOlderAims: number;
  /** choices that wait for a person to look */
  choicesToLookAt: number;
  /** prints whose condition asks to be looked at again by today */
  looksDue: number;
  /** places and samples whose looking-through was begun and not ended */
  openRounds: readonly { readonly id: number; readonly name: string; readonly all: number; readonly looked: number }[];
  work: WorkCounts;
  recent: readonly RecentCapture[];
  done?: string;
};

/** What there is, what needs somebody next, and what came in last. */
export const OverviewPage = ({
  collectionName,
  counts,
  measuredByOlderVersions,
  chosenByOlderAims,
  work,
  recent,
  done,
  ...care
}: OverviewPageProps) => (
  <Layout title="Overview" section="overview" collectionName={collectionName}>
    <div class="page">
      <header class="page-head">
        <h1>Overview</h1>
        <p class="actions">
          <a class="button button-quiet" href="/prints/new">
            New print
          </a>
          <a class="button" href="/add">
            Add captures
          </a>
        </p>
      </header>
      <DoneNotice done={done} />
      <Counts counts={counts} />
      {measuredByOlderVersions > 0 ? <OlderMeasures captures={measuredByOlderVersions} /> : null}
      {chosenByOlderAims > 0 ? <OlderAims prints={chosenByOlderAims} /> : null}
      <NextThings counts={counts} work={work} care={care} />
      {work.waiting + work.running + work.cancelled > 0 ? <WorkProgress counts={work} /> : null}
      {recent.length > 0 ? (
        <section aria-labelledby="recent-title" class="stack">
          <h2 id="recent-title">Taken in last</h2>
          <ol class="contact-sheet">
            {recent.map((capture) => (
              <li>
                <CaptureCard capture={capture}>
                  <p class="small">
                    {capture.print ? (
                      <a class="object-number" href={`/prints/${capture.print.id}`}>
                        {capture.print.objectNumber}
                      </a>
                    ) : (
                      <a href={`/tray?capture=${capture.id}#capture-${capture.id}`}>in the tray</a>
                    )}
                  </p>
                </CaptureCard>
              </li>
            ))}
          </ol>
        </section>
      ) : null}
    </div>
  </Layout>
);

const Counts = ({ counts }: { counts: ShownCounts }) => (
  <dl class="counts">
    <Count label="Prints" value={counts.prints} href="/prints" />
    <Count label="Captures" value={counts.captures} href="/prints?captures=with" />
    <Count label="With a preservation master" value={counts.masters} href="/inventory" />
    <Count label="Prints to be captured again" value={counts.toRecapture} href="/recapture" />
    <Count label="In the tray" value={counts.inTray} href="/tray" />
  </dl>
);

const Count = ({ label, value, href }: { label: string; value: number; href: string }) => (
  <div>
    <dt>{label}</dt>
    <dd>
      <a href={href}>{inFigures(value)}</a>
    </dd>
  </div>
);

type Care = Pick<OverviewPageProps, "choicesToLookAt" | "looksDue" | "openRounds">;

function NextThings({ counts, work, care }: { counts: ShownCounts; work: WorkCounts; care: Care }) {
  const things = [...nextThings(counts, work), ...looksNext(care)];
  return (
    <section class="card" aria-labelledby="next-title">
      <h2 id="next-title">Next</h2>
      {things.length === 0 ? (
        <p>Nothing waits: every print has a capture good enough to keep, and every capture has its print.</p>
      ) : (
        <ol class="next-things">
          {things.map(({ words, href, act }) => (
            <li>
              {words} <a href={href}>{act}</a>
            </li>
          ))}
        </ol>
      )}
    </section>
  );
}

/** Measuring a whole collection takes hours: a new version asks first. */
const OlderMeasures = ({ captures }: { captures: number }) => (
  <Notice level="notice" title="Measuring has changed">
    <p>
      {capital(counted(captures, "capture was", "captures were"))} measured by an older version of the program. What was read holds until{" "}
      {captures === 1 ? "it is" : "they are"} measured again; then some values may differ, and masters that the rule chose with them. What a
      person chose stands. It runs beside other work, and can be stopped.
    </p>
    <form method="post" action="/work/measure-older">
      <button class="button button-quiet" type="submit">
        Measure {captures === 1 ? "it" : "them"} again
      </button>
    </form>
  </Notice>
);

/** A new version of the program can bring aims that ask for more or less; nothing is chosen anew behind the keeper's back. */
const OlderAims = ({ prints }: { prints: number }) => (
  <Notice level="notice" title="The aims have changed">
    <p>
      The masters of {counted(prints, "print", "prints")} were chosen by an earlier version of the aims, or not yet for a new purpose.
      Chosen anew, some may change or be found wanting; what a person chose stands, and the earlier choices stay in the history.
    </p>
    <form method="post" action="/masters/renew">
      <button class="button button-quiet" type="submit">
        Choose them anew
      </button>
    </form>
  </Notice>
);

/** What waits for somebody, the nearest to being done first. */
function nextThings(counts: ShownCounts, work: WorkCounts): { words: string; href: string; act: string }[] {
  const { inTray, printsWithoutCapture, fallShort, damaged } = counts;
  return [
    ...(damaged > 0
      ? [
          {
            words: `${capital(counted(damaged, "file is not what was taken in", "files are not what was taken in"))}.`,
            href: "/fixity",
            act: "See which, and what to do",
          },
        ]
      : []),
    ...(work.failed > 0 ? [{ words: `${capital(failedInWords(work))}.`, href: "/work#failed", act: "See why" }] : []),
    ...(inTray > 0
      ? [
          {
            words: `${capital(counted(inTray, "capture waits to be told which print it shows", "captures wait to be told which print each shows"))}.`,
            href: "/tray",
            act: "Sort the tray",
          },
        ]
      : []),
    ...(printsWithoutCapture > 0
      ? [
          {
            words: `${capital(counted(printsWithoutCapture, "print has", "prints have"))} no capture.`,
            href: "/prints?captures=without",
            act: "See which",
          },
        ]
      : []),
    ...(fallShort > 0
      ? [
          {
            words: `${capital(counted(fallShort, "print has", "prints have"))} no capture good enough to be the preservation master.`,
            href: "/recapture",
            act: "See why, and what to change",
          },
        ]
      : []),
  ];
}

function looksNext({ choicesToLookAt, looksDue, openRounds }: Care): { words: string; href: string; act: string }[] {
  return [
    ...(choicesToLookAt > 0
      ? [
          {
            words: `${capital(counted(choicesToLookAt, "choice of a master asks", "choices of masters ask"))} for your eye.`,
            href: "/choices",
            act: "See which",
          },
        ]
      : []),
    ...openRounds.map(({ id, name, all, looked }) => ({
      words: `${name}: ${looked} of ${all} prints looked at.`,
      href: `/rounds/${id}/look`,
      act: "Go on",
    })),
    ...(looksDue > 0
      ? [
          {
            words: `${capital(counted(looksDue, "print asks", "prints ask"))} for another look at ${looksDue === 1 ? "its" : "their"} condition.`,
            href: "/due",
            act: "See which",
          },
        ]
      : []),
  ];
}

function failedInWords({ failed, failedComparisons }: WorkCounts): string {
  const captures = failed - failedComparisons;
  return [
    ...(captures > 0 ? [`${counted(captures, "capture", "captures")} could not be measured`] : []),
    ...(failedComparisons > 0
      ? [`the captures of ${counted(failedComparisons, "side of a print", "sides of prints")} could not be compared`]
      : []),
  ].join(", and ");
}
