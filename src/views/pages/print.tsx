import type { Aim } from "#domain/aim/aim.ts";
import type { Side } from "#domain/capture/capture.ts";
import type { ActionAnswer, Caution } from "#domain/condition/cautions-for.ts";
import type { MethodStop } from "#domain/condition/method-stop.ts";
import type { Choice } from "#domain/master/choice.ts";
import type { Print } from "#domain/print/print.ts";
import type { CareFacts } from "#domain/storage/care-priority.ts";
import type { LightBudget, LightDose } from "#domain/storage/light-budget.ts";
import { counted } from "../format/counted.ts";
import { BeforeYou } from "../parts/before-you.tsx";
import { CaptureView } from "../parts/capture-view.tsx";
import { Cautions } from "../parts/cautions.tsx";
import { ClimateNotice } from "../parts/climate-notice.tsx";
import { Condition, type ShownCondition } from "../parts/condition.tsx";
import { type DamagedCapture, DamagedFiles } from "../parts/damaged-files.tsx";
import { DetailPlot } from "../parts/detail-plot.tsx";
import { DoseNotice } from "../parts/dose-notice.tsx";
import { type FormState, NOTHING_TYPED } from "../parts/field.tsx";
import { History, type PlaceNames, type ShownEvent } from "../parts/history.tsx";
import { Layout } from "../parts/layout.tsx";
import { type EarlierChoice, MasterChoice } from "../parts/master-choice.tsx";
import { type MeasuredCapture, MeasuresTable } from "../parts/measures-table.tsx";
import { KeptFrom } from "../parts/method-stop.tsx";
import { DoneNotice, Notice } from "../parts/notice.tsx";
import { PrintFacts } from "../parts/print-facts.tsx";
import type { ShownProposal } from "../parts/proposed.tsx";
import { SavedAgainList } from "../parts/saved-again.tsx";
import { TogetherForm, type WaitingCapture } from "../parts/together-form.tsx";
import { type WorkCounts, WorkProgress } from "../parts/work-progress.tsx";

/** One side of the print: its captures, and what holds now for each purpose. */
export type ShownSide = {
  readonly side: Side;
  readonly captures: readonly MeasuredCapture[];
  readonly choices: readonly Choice[];
  readonly earlier: readonly (EarlierChoice & { readonly purposeId: number })[];
  readonly proposals: readonly (ShownProposal & { readonly purpose: { readonly id: number } })[];
};

/** A form for another master that was refused, with what was typed into it. */
export type Overruling = { readonly side: string; readonly purposeKey: string; readonly form: FormState };

export type PrintPageProps = {
  collectionName: string;
  print: Print;
  placePath: readonly string[];
  /** for events of the history that tell of a place */
  placeNames: PlaceNames;
  cautions: readonly Caution[];
  keptFrom: readonly MethodStop[];
  actions: readonly ActionAnswer[];
  /** captures in the tray whose names start with its number */
  waiting: readonly WaitingCapture[];
  /** captures whose files were found damaged */
  damaged: readonly DamagedCapture[];
  condition: ShownCondition;
  /** front first; the back only where it has captures */
  sides: readonly ShownSide[];
  aims: readonly Aim[];
  /** the purpose whose aim the table is held against */
  purposeKey: string;
  /** whether a phone shows the tables of measures behind their title: nobody has asked for one */
  foldsMeasures: boolean;
  climate: CareFacts["climate"];
  light: { readonly dose: LightDose; readonly budget: LightBudget; readonly isLogged: boolean };
  history: readonly ShownEvent[];
  work: WorkCounts;
  overruling: Overruling | null;
  done?: string;
};

/** Everything known of one print: what to mind, what it is, which capture to trust and why. */
export function PrintPage(props: PrintPageProps) {
  const { print, sides, work } = props;
  const address = `/add?print=${encodeURIComponent(print.objectNumber)}`;
  return (
    <Layout title={`${print.objectNumber} ${print.title}`.trim()} section="prints" collectionName={props.collectionName}>
      <div class="page print-page">
        <header class="page-head">
          <div>
            <p class="object-number">{print.objectNumber}</p>
            <h1>{print.title === "" ? "Untitled" : print.title}</h1>
          </div>
          <p class="actions">
            <a class="button button-quiet" href={`/prints/${print.id}/edit`}>
              Edit
            </a>
            <a class="button" href={address}>
              Add captures
            </a>
          </p>
        </header>
        <DoneNotice done={props.done} />
        {props.waiting.length > 0 ? <Waiting print={print} waiting={props.waiting} /> : null}
        {props.damaged.length > 0 ? <DamagedFiles captures={props.damaged} /> : null}
        <Cautions cautions={props.cautions} printId={print.id}>
          <KeptFrom stops={props.keptFrom} />
          <BeforeYou answers={props.actions} />
        </Cautions>
        <div class="print-top">
          <MainPicture sides={sides} />
          <section class="card" aria-labelledby="record-title">
            <h2 id="record-title">Record</h2>
            <PrintFacts print={print} placePath={props.placePath} />
          </section>
        </div>
        {work.waiting + work.running > 0 ? <WorkProgress counts={work} /> : null}
        {sides.map((side) => (
          <SideSection {...props} shown={side} />
        ))}
        {sides.length === 0 ? (
          <section class="card">
            <h2>Captures</h2>
            <p>
              There is no capture of this print yet. <a href={address}>Add the first</a>
            </p>
          </section>
        ) : null}
        <section class="card" aria-labelledby="survey-title">
          <h2 id="survey-title">Condition</h2>
          <Condition printId={print.id} {...props.condition} />
        </section>
        <section class="card" aria-labelledby="climate-title">
          <h2 id="climate-title">Climate where it is kept</h2>
          <ClimateNotice climate={props.climate} processId={print.processId} placeId={print.placeId} />
        </section>
        <section class="card" aria-labelledby="light-title">
          <h2 id="light-title">Light on display</h2>
          <DoseNotice {...props.light} />
          <p>
            <a href={`/prints/${print.id}/displays`}>Log days on display</a>
          </p>
        </section>
        <section class="card" aria-labelledby="history-title">
          <h2 id="history-title">History</h2>
          <History events={props.history} places={props.placeNames} />
        </section>
        {/* once more for what stands below the cautions */}
        <script src="/assets/fold-on-phone.js"></script>
      </div>
    </Layout>
  );
}

const Waiting = ({ print, waiting }: Pick<PrintPageProps, "print" | "waiting">) => (
  <Notice
    level="notice"
    title={`In the tray: ${counted(waiting.length, "capture that seems to be", "captures that seem to be")} of this print`}
  >
    <p>
      {waiting.length === 1 ? "Its file name begins" : "Their file names begin"} with{" "}
      <span class="object-number">{print.objectNumber}</span>.
    </p>
    <TogetherForm waiting={waiting} form={NOTHING_TYPED} submit="Assign to this print">
      <input type="hidden" name="print" value={print.objectNumber} />
      <input type="hidden" name="from" value="print" />
    </TogetherForm>
  </Notice>
);

/** The capture that stands for the print: the first purpose's master, else the first capture there is. */
function MainPicture({ sides }: { sides: readonly ShownSide[] }) {
  const [first] = sides;
  if (!first) return <div class="capture-view capture-view-empty">No capture yet</div>;
  const masterId = first.choices.find((choice) => choice.captureId !== null)?.captureId;
  const shown = first.captures.find((capture) => capture.id === masterId) ?? first.captures[0];
  return shown ? (
    <a class="main-picture" href={`/captures/${shown.id}`}>
      <CaptureView capture={shown} outlines={[]} alt={`The ${first.side}, in ${shown.name}`} />
    </a>
  ) : null;
}

function SideSection(props: PrintPageProps & { shown: ShownSide }) {
  const { print, aims, purposeKey, overruling, shown } = props;
  const { side, captures, choices } = shown;
  const isOnly = props.sides.length === 1;
  return (
    <section class="side-section" aria-labelledby={`side-${side}`}>
      <h2 id={`side-${side}`}>{isOnly ? "Masters" : side === "front" ? "Front: masters" : "Back: masters"}</h2>
      <div class="masters">
        {aims.map((aim) => (
          <MasterChoice
            printId={print.id}
            side={side}
            aim={aim}
            choice={choices.find((choice) => choice.purpose.id === aim.purpose.id) ?? null}
            captures={captures}
            earlier={shown.earlier.filter(({ purposeId }) => purposeId === aim.purpose.id)}
            proposal={shown.proposals.find(({ purpose }) => purpose.id === aim.purpose.id) ?? null}
            overruling={overruling?.side === side && overruling.purposeKey === aim.purpose.key ? overruling.form : null}
          />
        ))}
      </div>
      <div class="compared-head">
        <h2 id={`compared-${side}`}>{isOnly ? "Captures compared" : `Captures of the ${side} compared`}</h2>
        {captures.length > 1 ? (
          <a class="button button-quiet" href={`/prints/${print.id}/compare?side=${side}`}>
            Compare by eye
          </a>
        ) : null}
        <nav class="switch" aria-label="Held against the aim for">
          {aims.map((aim) => (
            <a
              href={`/prints/${print.id}?purpose=${aim.purpose.key}#compared-${side}`}
              aria-current={aim.purpose.key === purposeKey ? "true" : undefined}
            >
              {aim.purpose.name}
            </a>
          ))}
        </nav>
      </div>
      <SavedAgainList captures={captures} />
      <details class="measures-fold" open data-fold-on-phone={props.foldsMeasures ? "" : undefined}>
        <summary>The measures, one by one</summary>
        <MeasuresTable side={side} captures={captures} aim={aims.find((aim) => aim.purpose.key === purposeKey) ?? null} choices={choices} />
        <DetailPlot side={side} captures={captures} />
      </details>
    </section>
  );
}
