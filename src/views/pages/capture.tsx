import { stands } from "#domain/capture/capture.ts";
import type { SetUp } from "#domain/capture/set-up.ts";
import type { MethodStop } from "#domain/condition/method-stop.ts";
import type { Reading } from "#domain/measure/reading.ts";
import type { ShownCapture } from "../parts/capture-card.tsx";
import { methodInWords, sizeInPixels } from "../parts/capture-card.tsx";
import { FileFacts, SettingsFacts } from "../parts/capture-facts.tsx";
import { MethodField, PrintNumberField, PrintNumbers, SetUpField, SideField } from "../parts/capture-fields.tsx";
import { CaptureMeasures } from "../parts/capture-measures.tsx";
import { CaptureView } from "../parts/capture-view.tsx";
import { DamagedFiles } from "../parts/damaged-files.tsx";
import { type FormState, TextField } from "../parts/field.tsx";
import { FileName } from "../parts/file-name.tsx";
import type { ShownFixity } from "../parts/fixity-words.ts";
import { overruledInWords, type ShownEvent } from "../parts/history.tsx";
import { Layout } from "../parts/layout.tsx";
import { StopFields } from "../parts/method-stop.tsx";
import { Moment } from "../parts/moment.tsx";
import { type NotMeasured, NotMeasuredNote } from "../parts/not-measured.tsx";
import { DoneNotice, Notice } from "../parts/notice.tsx";
import { OutlineLegend, type ShownOutline } from "../parts/outline-overlay.tsx";
import { OverlayLegend, Overlays, type ShownOverlay } from "../parts/overlays.tsx";
import { PublishedLevels, type ShownCheck } from "../parts/published-levels.tsx";
import { IsPutAway, PutAwayForm, type ShownPutAway } from "../parts/put-away.tsx";
import { Refusals } from "../parts/refusals.tsx";
import { SavedAgainNotice } from "../parts/saved-again.tsx";
import { type WorkCounts, WorkProgress } from "../parts/work-progress.tsx";

type ShownSize = { readonly widthPx: number; readonly heightPx: number };

export type CapturePageProps = {
  collectionName: string;
  capture: ShownCapture;
  print: { readonly id: number; readonly objectNumber: string; readonly title: string; readonly binnedAt: string | null } | null;
  setUpName: string | null;
  /** purposes this capture is the master for */
  masterFor: readonly string[];
  outlines: readonly ShownOutline[];
  /** the sizes in which its sheet is shown straightened, small and whole; null where there is none, or several */
  straightened: (ShownSize & { readonly whole: ShownSize & { readonly ppi: number | null; readonly isReduced: boolean } }) | null;
  /** what its measures draw over it */
  overlays: readonly ShownOverlay[];
  readings: readonly Reading[];
  /** the target check that speaks for its set-up; null where there is none */
  check: ShownCheck | null;
  fixity: ShownFixity | null;
  /** what keeps it from being measured; null when nothing does */
  notMeasured: NotMeasured | null;
  work: WorkCounts;
  /** methods that were used although a caution forbade them, and why */
  overruled: readonly ShownEvent[];
  /** who put it away, when and why; null while it counts */
  putAway: ShownPutAway | null;
  putAwayForm: FormState;
  form: FormState;
  /** what keeps the chosen method from the named print; null when nothing does */
  stop: (MethodStop & { readonly print: { readonly objectNumber: string } }) | null;
  setUps: readonly SetUp[];
  objectNumbers: readonly string[];
  done?: string;
};

/** One capture: the picture with what was found in it, every measure, and what is said of it. */
export const CapturePage = (props: CapturePageProps) => {
  const { capture, outlines } = props;
  // on a bed, what was read of its largest print would be taken for the whole
  const isSingle = outlines.length <= 1 && props.overlays.length > 0;
  return (
    <Layout title={capture.name} section="prints" collectionName={props.collectionName}>
      <div class="page">
        <header class="page-head">
          <div>
            <Belongs {...props} />
            <h1>
              <FileName name={capture.name} />
            </h1>
          </div>
          <p class="actions">
            {!stands(capture) ? null : (
              <a class="button button-quiet" href={`/captures/${capture.id}/outline`}>
                Set the outline
              </a>
            )}
            <a class="button button-quiet" href={`/captures/${capture.id}/original`} download>
              Download the original
            </a>
          </p>
        </header>
        <DoneNotice done={props.done} />
        {props.fixity && props.fixity.outcome !== "unchanged" ? <DamagedFiles captures={[{ ...capture, ...props.fixity }]} /> : null}
        {props.putAway ? <IsPutAway putAway={props.putAway} /> : null}
        {capture.divided ? (
          <Notice level="notice">
            <p>This bed has been divided. Its parts are captures of their own, with their prints or in the tray.</p>
          </Notice>
        ) : null}
        <SavedAgainNotice readings={props.readings} />
        <figure class="overlays">
          <CaptureView capture={capture} outlines={outlines} alt={altOf(props)}>
            {isSingle ? <Overlays {...sizeInPixels(capture)} overlays={props.overlays} /> : null}
          </CaptureView>
          <figcaption>
            {isSingle ? (
              <OverlayLegend overlays={props.overlays} />
            ) : props.readings.length > 0 ? (
              <OutlineLegend outlines={outlines} />
            ) : null}
          </figcaption>
        </figure>
        <StraightenedSheet {...props} />
        {props.work.waiting + props.work.running > 0 ? <WorkProgress counts={props.work} /> : null}
        <div class="beside">
          <section class="card" aria-labelledby="measures-title">
            <h2 id="measures-title">Measures</h2>
            {props.notMeasured ? <NotMeasuredNote captureId={capture.id} why={props.notMeasured} /> : null}
            <CaptureMeasures readings={props.readings} />
          </section>
          <div class="stack">
            <section class="card" aria-labelledby="settings-title">
              <h2 id="settings-title">How it was made</h2>
              <SettingsFacts original={capture.original} saidDay={capture.saidDay} />
              {props.overruled.map((event) => (
                <p>
                  Recorded on <Moment at={event.at} /> by {event.who ?? "nobody named"}: {overruledInWords(event.detail)}
                </p>
              ))}
            </section>
            <section class="card" aria-labelledby="file-title">
              <h2 id="file-title">The file</h2>
              <FileFacts capture={capture} fixity={props.fixity} />
            </section>
            {props.readings.length > 0 ? <PublishedLevels readings={props.readings} check={props.check} /> : null}
            {stands(capture) ? <CorrectForm {...props} /> : null}
            {stands(capture) ? <PutAwayForm captureId={capture.id} form={props.putAwayForm} /> : null}
          </div>
        </div>
      </div>
    </Layout>
  );
};

const altOf = ({ capture, print }: Pick<CapturePageProps, "capture" | "print">) =>
  print ? `${capture.side === "back" ? "Back" : "Front"} of ${print.objectNumber} ${print.title}` : "Capture without a print";

/** What the outline makes of the capture: where a corner sits wrong, it leans or shows ground. */
const StraightenedSheet = ({ capture, print, straightened }: CapturePageProps) =>
  straightened ? (
    <figure class="straight-sheet">
      <img
        src={`/captures/${capture.id}/sheets/1.jpg`}
        alt={`${altOf({ capture, print })}, straightened`}
        width={straightened.widthPx}
        height={straightened.heightPx}
        loading="lazy"
      />
      <figcaption>
        The sheet, straightened by its outline. Where a corner of it shows ground or is cut off, set the outline.
        <br />
        <a href={`/captures/${capture.id}/sheets/1.png`}>{wholeInWords(straightened.whole)}</a>
      </figcaption>
    </figure>
  ) : null;

function wholeInWords({ widthPx, heightPx, ppi, isReduced }: NonNullable<CapturePageProps["straightened"]>["whole"]): string {
  const size = `${widthPx.toLocaleString("en")} × ${heightPx.toLocaleString("en")} px${ppi === null ? "" : `, ${Math.round(ppi)} ppi`}`;
  return isReduced ? `Open it as large as can be made (${size})` : `Open it with all the capture resolved (${size})`;
}

const Belongs = ({ capture, print, setUpName, masterFor }: CapturePageProps) => (
  <p>
    {print ? (
      <>
        {capture.side === "back" ? "Back" : "Front"} of{" "}
        <a href={print.binnedAt === null ? `/prints/${print.id}` : "/bin"}>
          <span class="object-number">{print.objectNumber}</span> {print.title}
        </a>
        {print.binnedAt === null ? null : ", which is in the bin"}
      </>
    ) : (
      <>
        {capture.putAwayAt === null ? (
          <>
            In the <a href={`/tray?capture=${capture.id}#capture-${capture.id}`}>tray</a>
          </>
        ) : (
          "Put away, without a print"
        )}
        {!stands(capture) ? null : (
          <>
            . <a href={`/captures/${capture.id}/likely-prints`}>Look which print it shows</a>
          </>
        )}
      </>
    )}
    <span class="second-line">
      {methodInWords(capture)}
      {setUpName ? `, ${setUpName}` : ""}
      {masterFor.length > 0 ? `. Master for ${masterFor.join(", ")}` : ""}
    </span>
  </p>
);

const CorrectForm = ({ capture, form, stop, setUps, objectNumbers }: CapturePageProps) => (
  <form class="card" method="post" action={`/captures/${capture.id}`} id="correct">
    <h2>Correct what is said of it</h2>
    <Refusals
      refusals={form.refusals.filter((refusal) => !["print", "side", "method", "setUp", "saidDay"].includes(refusal.about ?? ""))}
    />
    <PrintNumberField form={form} hint="Left empty, the capture goes back into the tray." />
    <SideField form={form} />
    <MethodField form={form} none="Not known" />
    <SetUpField form={form} setUps={setUps} />
    <TextField
      form={form}
      name="saidDay"
      label="Captured on"
      hint="The day on which it was made, as year-month-day, such as 2009-05-31. Left empty, the day that the file says holds."
    />
    {stop ? <StopFields stop={stop} objectNumber={stop.print.objectNumber} form={form} /> : null}
    <PrintNumbers numbers={objectNumbers} />
    <button class="button" type="submit">
      Save
    </button>
  </form>
);
