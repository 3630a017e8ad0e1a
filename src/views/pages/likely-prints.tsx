import type { Refusal } from "#domain/outcome.ts";
import { counted } from "../format/counted.ts";
import type { ShownCapture } from "../parts/capture-card.tsx";
import { CaptureView } from "../parts/capture-view.tsx";
import { FileName } from "../parts/file-name.tsx";
import { Layout } from "../parts/layout.tsx";
import { Refusals } from "../parts/refusals.tsx";

/** A print that the capture may show, with one capture of it to look at. */
export type LikelyPrint = {
  readonly print: { readonly id: number; readonly objectNumber: string; readonly title: string };
  readonly side: "front" | "back";
  readonly capture: ShownCapture;
  readonly isSure: boolean;
};

/** Another capture in the tray that may show the same print. */
export type AlikeCapture = Pick<LikelyPrint, "capture" | "isSure">;

export type LikelyPrintsPageProps = {
  collectionName: string;
  capture: ShownCapture;
  /** likeliest first; null when the capture cannot be recognised */
  likely: readonly LikelyPrint[] | null;
  /** likeliest first */
  waiting: readonly AlikeCapture[];
  /** how many captures of prints could not be looked at: not measured yet, or measured before what is kept for it changed */
  notCompared: number;
  /** why the pictures were not compared */
  refusals: readonly Refusal[];
};

/** A capture beside the prints that it may show: a person looks and decides. */
export const LikelyPrintsPage = ({ collectionName, capture, likely, waiting, notCompared, refusals }: LikelyPrintsPageProps) => (
  <Layout title="Which print is it?" section="add" collectionName={collectionName}>
    <div class="page">
      <header class="page-head">
        <div>
          <p>
            <a href={`/captures/${capture.id}`}>
              <FileName name={capture.name} />
            </a>
          </p>
          <h1>Which print is it?</h1>
          <p>{refusals.length > 0 ? <a href={`/captures/${capture.id}/likely-prints`}>Look again</a> : inWords(likely, waiting)}</p>
          {likely !== null && notCompared > 0 ? <p>{notComparedInWords(notCompared)}</p> : null}
          <p>
            <a href={`/prints/new?capture=${capture.id}`}>It shows a print that is not catalogued yet</a>
          </p>
        </div>
      </header>
      <Refusals refusals={refusals} />
      <div class="likely-prints">
        <figure>
          <CaptureView capture={capture} outlines={[]} alt="The capture without a print" />
          <figcaption>This capture</figcaption>
        </figure>
        {(likely ?? []).map((each) => (
          <Likely capture={capture} likely={each} />
        ))}
        {waiting.map((each) => (
          <Waiting alike={each} />
        ))}
      </div>
    </div>
  </Layout>
);

const agreement = (isSure: boolean) => (isSure ? "The pictures agree in their detail." : "The pictures are alike; look closely.");

const Waiting = ({ alike: { capture, isSure } }: { alike: AlikeCapture }) => (
  <figure>
    <CaptureView capture={capture} outlines={[]} alt="Another capture without a print" />
    <figcaption>
      <a href={`/tray?capture=${capture.id}#capture-${capture.id}`}>
        <FileName name={capture.name} />
      </a>
      <span class="second-line">Waits in the tray too. {agreement(isSure)}</span>
    </figcaption>
  </figure>
);

const Likely = ({ capture, likely: { print, side, capture: known, isSure } }: { capture: ShownCapture; likely: LikelyPrint }) => (
  <figure>
    <CaptureView capture={known} outlines={[]} alt={`${side === "back" ? "Back" : "Front"} of ${print.objectNumber} ${print.title}`} />
    <figcaption>
      <a href={`/prints/${print.id}`}>
        <span class="object-number">{print.objectNumber}</span> {print.title}
      </a>
      <span class="second-line">
        {side === "back" ? "Back" : "Front"}. {agreement(isSure)}
      </span>
      <form method="post" action={`/captures/${capture.id}/print`}>
        <input type="hidden" name="print" value={print.objectNumber} />
        <input type="hidden" name="side" value={side} />
        <button class="button" type="submit">
          It is {print.objectNumber}
        </button>
      </form>
    </figcaption>
  </figure>
);

const notComparedInWords = (count: number): string =>
  `${counted(count, "capture of a print", "captures of prints")} could not be looked at: not measured yet, or to be measured again on the page of each, or all by “measure --again” on the command line.`;

function inWords(likely: readonly LikelyPrint[] | null, waiting: readonly AlikeCapture[]): string {
  if (likely === null)
    return "This capture cannot be compared: it has not been measured yet, or must be measured again. Wait until it is measured, measure it again on its page, or give its number in the tray.";
  if (likely.length === 0 && waiting.length > 0)
    return "No print of the collection looks like this one, but what waits in the tray does: it may be another capture of the same print.";
  if (likely.length === 0) return "No print of the collection looks like this one. It may not be catalogued or captured yet.";
  return "Nothing is assigned until you say so.";
}
