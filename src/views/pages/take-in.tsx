import type { SetUp } from "#domain/capture/set-up.ts";
import type { MethodStop } from "#domain/condition/method-stop.ts";
import { counted } from "../format/counted.ts";
import { MethodField, PrintNumberField, PrintNumbers, SetUpField, SideField } from "../parts/capture-fields.tsx";
import { type FormState, TextField } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";
import { KeptFrom } from "../parts/method-stop.tsx";
import { DoneNotice } from "../parts/notice.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";
import { type FileReport, TakeInReport } from "../parts/take-in-report.tsx";
import { type TakeInStop, TakeInStops } from "../parts/take-in-stops.tsx";
import { type WorkCounts, WorkProgress } from "../parts/work-progress.tsx";

export type TakeInPageProps = {
  collectionName: string;
  form: FormState;
  setUps: readonly SetUp[];
  objectNumbers: readonly string[];
  inTray: number;
  work: WorkCounts;
  report: readonly FileReport[] | null;
  /** captures that were taken in without the method said of them, until somebody says why it was used */
  stops: readonly TakeInStop[];
  /** the methods that the print named in the address is kept from */
  keptFrom: readonly MethodStop[];
  done?: string | undefined;
  /** files that one form may bring */
  mostFiles: number;
};

/** Where files come in, and what became of those that just did. */
export const TakeInPage = (props: TakeInPageProps) => (
  <Layout title="Add captures" section="add" collectionName={props.collectionName} scripts={["take-in.js"]}>
    <div class="page">
      <header class="page-head">
        <h1>Add captures</h1>
        <p class="actions">
          <a class="button button-quiet" href="/tray">
            Tray{props.inTray > 0 ? `: ${counted(props.inTray, "capture waits", "captures wait")}` : ""}
          </a>
          <a class="button button-quiet" href="/set-ups">
            Set-ups
          </a>
        </p>
      </header>
      <DoneNotice done={props.done} />
      <RefusalSummary refusals={props.form.refusals} labels={TAKE_IN_LABELS} title={whatBecame(props.report ?? [])} />
      <TakeInStops stops={props.stops} />
      {props.report ? <TakeInReport report={props.report} /> : null}
      {props.report === null && isQuiet(props.work) ? null : <WorkProgress counts={props.work} />}
      <TakeInForm {...props} />
    </div>
  </Layout>
);

const TAKE_IN_LABELS: Readonly<Record<string, string>> = {
  print: "Object number of the print",
  side: "Side shown",
  method: "Method",
  setUp: "Set-up",
  saidDay: "Captured on",
  files: "Picture files",
};

const TakeInForm = ({ form, setUps, objectNumbers, keptFrom, mostFiles }: TakeInPageProps) => (
  <form class="card take-in" method="post" action="/add" enctype="multipart/form-data" data-take-in>
    {/* the words stand before the files, so that they are known when the first file arrives */}
    <fieldset>
      <legend>What the files show, where you know it</legend>
      <p class="hint">
        Leave this open for a mixed lot: a file whose name starts with an object number finds its print by itself, with its side where the
        name goes on with front, back, recto or verso, and the others wait in the tray.
      </p>
      <div class="field-grid">
        <PrintNumberField form={form} />
        <SideField form={form} none="Front, unless the name says back" />
        <MethodField form={form} none="Guess it from each file" />
        <SetUpField form={form} setUps={setUps} />
        <TextField
          form={form}
          name="saidDay"
          label="Captured on"
          hint="The day on which they were made, as year-month-day, such as 2009-05-31. Left empty, the day that each file says holds."
        />
      </div>
      {keptFrom.length > 0 ? (
        <div class="notice notice-warning">
          <p>
            <KeptFrom stops={keptFrom} />
          </p>
        </div>
      ) : null}
      <PrintNumbers numbers={objectNumbers} />
    </fieldset>
    <fieldset class="drop-zone" data-drop-zone>
      <legend>The files</legend>
      <div class="field-grid">
        <div class="field">
          <label for="field-files">Picture files</label>
          <input id="field-files" name="files" type="file" multiple aria-describedby="files-hint" />
        </div>
        <div class="field">
          <label for="field-folder">or a whole folder</label>
          <input id="field-folder" name="files" type="file" {...{ webkitdirectory: true }} aria-describedby="files-hint" />
        </div>
      </div>
      <p class="hint" id="files-hint">
        JPEG, PNG, WebP, AVIF, TIFF, HEIC and camera raw files (DNG), up to {mostFiles} at once. They are kept exactly as they come; adding
        one twice does no harm.
      </p>
      <p class="drop-words" role="status" data-drop-words />
    </fieldset>
    <p class="actions">
      <button class="button" type="submit" data-send>
        Add captures
      </button>
    </p>
  </form>
);

const whatBecame = (report: readonly FileReport[]): string =>
  report.some((file) => file.state !== "refused")
    ? "The files below are here, but not all that you said could be used."
    : "No file was taken in. What you typed is still here; choose the files again.";

const isQuiet = (work: WorkCounts) => work.waiting + work.running + work.failed + work.cancelled === 0;
