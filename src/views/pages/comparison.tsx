import type { Side } from "#domain/capture/capture.ts";
import type { LaidSide } from "#domain/comparison/laid-side.ts";
import type { Print } from "#domain/print/print.ts";
import { asSentence } from "#domain/sentence.ts";
import type { ShownCapture } from "../parts/capture-card.tsx";
import { methodInWords } from "../parts/capture-card.tsx";
import { ComparisonCloseUps, ToneFilters } from "../parts/comparison-close-ups.tsx";
import { ComparisonControls, ComparisonHint, ComparisonKeys, ComparisonSizes, ScreenScale } from "../parts/comparison-controls.tsx";
import { ComparisonOverlays } from "../parts/comparison-overlays.tsx";
import { ComparisonPanes, LaidHow, type LookedAt } from "../parts/comparison-panes.tsx";
import { ComparisonPlots } from "../parts/comparison-plots.tsx";
import { FileName } from "../parts/file-name.tsx";
import { Layout } from "../parts/layout.tsx";
import { Notice } from "../parts/notice.tsx";

export type ComparisonPageProps = {
  collectionName: string;
  /** of this page, to ask for it again */
  address: string;
  print: Print;
  side: Side;
  /** those with two captures or more */
  otherSides: readonly Side[];
  /** of the side */
  captures: readonly ShownCapture[];
  laying:
    | { readonly laid: LaidSide; readonly basis: string }
    | { readonly done: number; readonly of: number }
    | { readonly refused: string };
  /** two to four, once they are laid */
  looked: readonly LookedAt[];
  /** tones are brought to those of the reference */
  isMatched: boolean;
  /** names of what is drawn over the captures, and in what it is drawn */
  drawn: readonly string[];
  unitsPerMm: number;
};

const PRELOADS = {
  library: "openseadragon.js",
  modules: ["comparison-address.js", "comparison-panes.js", "comparison-scale.js"],
};

/** Captures of one side of a print, each at the same place and the same scale, to be judged by eye. */
export function ComparisonPage(props: ComparisonPageProps) {
  const { print, side, laying } = props;
  return (
    <Layout
      title={`Captures of ${print.objectNumber} compared`}
      section="prints"
      collectionName={props.collectionName}
      scripts={["comparison.js"]}
      isAskedAgain={"done" in laying}
      preloads={"laid" in laying ? PRELOADS : undefined}
    >
      <div class="page page-wide">
        <header class="page-head">
          <div>
            <p class="object-number">
              <a href={`/prints/${print.id}`}>{print.objectNumber}</a>
            </p>
            <h1>Captures of the {side} compared by eye</h1>
          </div>
          <p class="actions">
            {props.otherSides.map((other) => (
              <a class="button button-quiet" href={`/prints/${print.id}/compare?side=${other}`}>
                The {other}
              </a>
            ))}
            <a class="button button-quiet" href={`/prints/${print.id}#compared-${side}`}>
              Their measures
            </a>
          </p>
        </header>
        {"refused" in laying ? <Refused {...props} why={laying.refused} /> : null}
        {"done" in laying ? <Progress {...laying} address={props.address} /> : null}
        {"laid" in laying ? <Looking {...props} laid={laying.laid} /> : null}
      </div>
    </Layout>
  );
}

const Refused = ({ print, side, captures, why }: ComparisonPageProps & { why: string }) => (
  <Notice level="notice" title="These captures cannot be laid on each other">
    <p>{asSentence(why)}</p>
    {captures.length > 1 ? (
      <form class="actions" method="post" action={`/prints/${print.id}/compare/again`}>
        <input type="hidden" name="side" value={side} />
        <button class="button button-quiet" type="submit">
          Try again
        </button>
      </form>
    ) : (
      <p>
        <a href={`/add?print=${encodeURIComponent(print.objectNumber)}`}>Add a capture</a>
      </p>
    )}
  </Notice>
);

/** Asks for the page again every second and a half until it is another; without script the page loads anew (Layout). */
const Progress = ({ done, of, address }: { done: number; of: number; address: string }) => (
  <section
    id="laying"
    class="card stack"
    aria-label="Laying the captures on each other"
    hx-get={address}
    hx-trigger="every 1500ms"
    hx-target="main"
    hx-select=".page"
    hx-swap="innerHTML"
  >
    <h2>The captures are being laid on each other</h2>
    <p role="status">
      {done === 0 ? `Finding how the ${of} captures lie on each other, by their own detail.` : `Straightening them: ${done} of ${of} done.`}
    </p>
    <progress max={of} value={done > 0 ? done : undefined} aria-label="Captures straightened so far">
      {done} of {of}
    </progress>
    <p>
      Every capture is read whole for it, which takes some seconds, for large files a minute. It is done once, and again when an outline is
      set anew. This page goes on by itself as soon as they are ready.
    </p>
    <p>
      <a href={address}>Look again</a>
    </p>
  </section>
);

function Looking(props: ComparisonPageProps & { laid: LaidSide }) {
  const { laid, looked, print, side, captures } = props;
  return (
    <>
      {captures.length > 2 ? <Choose {...props} /> : null}
      {laid.notLaid.length > 0 ? (
        <Notice level="notice" title="Not shown">
          <ul>
            {laid.notLaid.map(({ captureId, why }) => (
              <li>
                <a href={`/captures/${captureId}`}>{captures.find(({ id }) => id === captureId)?.name ?? "A capture"}</a>: {why}.
              </li>
            ))}
          </ul>
        </Notice>
      ) : null}
      <section class="comparison" aria-label="The captures" data-comparison={dataOf(laid, looked, props.unitsPerMm)}>
        <ComparisonControls looked={looked} />
        <SizesAndTones {...props} />
        <ToneFilters looked={looked} />
        <ComparisonHint />
        <ComparisonPanes laid={laid} looked={looked} unitsPerMm={props.unitsPerMm} />
        <p class="visually-hidden" role="status" data-told />
        <ComparisonOverlays looked={looked} drawn={props.drawn} />
        <ComparisonKeys isSizeKnown={laid.isSizeKnown} />
        {laid.isSizeKnown ? <ScreenScale /> : null}
      </section>
      {laid.isSizeKnown ? null : (
        <Notice level="notice">
          <p>
            The size of the sheet is not known, so sizes in print terms cannot be shown.{" "}
            <a href={`/prints/${print.id}/edit`}>Give it, or the format, in the record</a>.
          </p>
        </Notice>
      )}
      {laid.closeUps.length > 0 ? <ComparisonCloseUps {...props} /> : null}
      <ComparisonPlots plotted={looked.map(({ plotted }) => plotted)} sheetMm={laid.sheetMm} />
      <section aria-labelledby="laid-title">
        <h2 id="laid-title">How exactly they lie on each other</h2>
        <LaidHow laid={laid} looked={looked} />
        <p class="hint">
          Each figure is what was still found between the pictures once they lay on each other. On the border there is no detail to follow:
          it goes on from the picture, and may be off by as much. Every capture is straightened into the grid of the print's own millimetres
          at its own fineness, so that one place of the print's {side} is at one place here. The ppi below a picture are those of its finest
          place; the measured sampling is the lower of its two directions.
        </p>
      </section>
      <script src="/assets/fold-on-phone.js"></script>
    </>
  );
}

/** Folded on a phone, where they would push the pictures off the screen. */
function SizesAndTones(props: ComparisonPageProps & { laid: LaidSide }) {
  const hasTones = props.looked.some((each) => each.laid.toneCurve !== null);
  return (
    // without a script there is nothing in it but the tones
    <details class="comparison-fold" open data-fold-on-phone hidden={!hasTones}>
      <summary>{hasTones ? "Size and tones" : "Size"}</summary>
      <ComparisonSizes isSizeKnown={props.laid.isSizeKnown} />
      {hasTones ? <Tones {...props} /> : null}
    </details>
  );
}

/** Links, so that close-ups change without a script too; client/comparison.js takes them over. */
function Tones({ print, side, looked, laid, isMatched }: ComparisonPageProps & { laid: LaidSide }) {
  const captures = looked.map(({ capture }) => `&capture=${capture.id}`).join("");
  const address = `/prints/${print.id}/compare?side=${side}${captures}`;
  const reference = looked.find(({ capture }) => capture.id === laid.referenceId);
  return (
    <nav class="comparison-group" aria-label="Tones">
      <span class="comparison-label" aria-hidden="true">
        Tones
      </span>
      <a class="button button-quiet" href={address} data-tone="plain" aria-current={isMatched ? undefined : "true"}>
        As captured
      </a>
      <a class="button button-quiet" href={`${address}&tone=matched`} data-tone="matched" aria-current={isMatched ? "true" : undefined}>
        All as in {reference ? `capture ${reference.number}` : "the reference"} <kbd>t</kbd>
      </a>
    </nav>
  );
}

const Choose = ({ print, side, captures, laid, looked }: ComparisonPageProps & { laid: LaidSide }) => (
  <form method="get" action={`/prints/${print.id}/compare`}>
    <input type="hidden" name="side" value={side} />
    <details class="comparison-choose-fold" open data-fold-on-phone>
      <summary>Choose what is shown</summary>
      <div class="comparison-choose">
        <fieldset>
          <legend>Shown: two to four</legend>
          {captures
            .filter(({ id }) => laid.captures.some(({ captureId }) => captureId === id))
            .map((capture) => (
              <label class="check">
                <input
                  type="checkbox"
                  name="capture"
                  value={String(capture.id)}
                  checked={looked.some((each) => each.capture.id === capture.id)}
                  autocomplete="off"
                />
                <span>
                  <FileName name={capture.name} />
                  <span class="second-line">{methodInWords(capture)}</span>
                </span>
              </label>
            ))}
        </fieldset>
        <button class="button button-quiet" type="submit">
          Show these
        </button>
      </div>
    </details>
  </form>
);

/** What client/comparison.js needs to know. */
const dataOf = ({ canvas, sheetMm, isSizeKnown }: LaidSide, looked: readonly LookedAt[], unitsPerMm: number): string =>
  JSON.stringify({
    canvas,
    unitsPerMm,
    sheetMm,
    isSizeKnown,
    captures: looked.map(({ number, capture, laid, pictures, tiles }) => ({
      number,
      name: capture.name,
      pxPerMm: laid.pxPerMm,
      ownPxPerMm: laid.ownPxPerMm,
      pictures,
      tiles,
    })),
  });
