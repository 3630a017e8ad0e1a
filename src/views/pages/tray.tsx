import { counted } from "../format/counted.ts";
import { CaptureCard, type ShownCapture } from "../parts/capture-card.tsx";
import { PrintNumberField, PrintNumbers, SideField } from "../parts/capture-fields.tsx";
import { CaptureView } from "../parts/capture-view.tsx";
import type { FormState } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";
import { type NotMeasured, NotMeasuredNote } from "../parts/not-measured.tsx";
import { DoneNotice } from "../parts/notice.tsx";
import type { ShownOutline } from "../parts/outline-overlay.tsx";
import { Refusals } from "../parts/refusals.tsx";
import { type WorkCounts, WorkProgress } from "../parts/work-progress.tsx";

/** A capture without print, with the prints that were found on it and what was typed for it. */
export type TrayItem = {
  readonly capture: ShownCapture;
  readonly outlines: readonly ShownOutline[];
  readonly notMeasured: NotMeasured | null;
  readonly form: FormState;
};

export type TrayPageProps = {
  collectionName: string;
  items: readonly TrayItem[];
  objectNumbers: readonly string[];
  work: WorkCounts;
  done?: string;
};

/** Captures that wait to be told which print they show. */
export const TrayPage = ({ collectionName, items, objectNumbers, work, done }: TrayPageProps) => (
  <Layout title="Tray" section="add" collectionName={collectionName}>
    <div class="page">
      <header class="page-head">
        <div>
          <h1>Tray</h1>
          <p>
            {items.length === 0
              ? "Empty"
              : `${counted(items.length, "capture waits to be told which print it shows", "captures wait to be told which print each shows")}.`}
          </p>
        </div>
        <p class="actions">
          <a class="button button-quiet" href="/add">
            Add captures
          </a>
        </p>
      </header>
      <DoneNotice done={done} />
      {work.waiting + work.running > 0 ? <WorkProgress counts={work} /> : null}
      {items.length === 0 ? <p>Every capture belongs to a print.</p> : null}
      <PrintNumbers numbers={objectNumbers} />
      <ol class="tray">
        {items.map((item) => (
          <li class="card tray-item" id={`capture-${item.capture.id}`}>
            {item.outlines.length > 1 ? <Bed item={item} /> : <Single item={item} />}
          </li>
        ))}
      </ol>
    </div>
  </Layout>
);

const Single = ({ item }: { item: TrayItem }) => (
  <>
    <CaptureCard capture={item.capture} />
    <div>
      <Failure item={item} />
      <AssignForm item={item} />
    </div>
  </>
);

const Failure = ({ item: { capture, notMeasured } }: { item: TrayItem }) =>
  notMeasured?.isFailed ? <NotMeasuredNote captureId={capture.id} why={notMeasured} from="tray" /> : null;

const AssignForm = ({ item: { capture, form } }: { item: TrayItem }) => (
  <form class="assign" method="post" action={`/captures/${capture.id}/print`}>
    <Refusals refusals={form.refusals.filter((refusal) => refusal.about !== "print")} />
    <div class="field-row">
      <PrintNumberField form={form} id={`print-${capture.id}`} isRequired />
      <SideField form={form} id={`side-${capture.id}`} />
    </div>
    <p class="actions">
      <button class="button" type="submit">
        Assign
      </button>
      <a href={`/captures/${capture.id}/likely-prints`}>Look which print it shows</a>
      <a href={newPrintAddress(form.typed.print)}>It shows a print that is not catalogued yet</a>
    </p>
  </form>
);

/** A bed that seems to hold several prints: each part is told its own print. */
const Bed = ({ item }: { item: TrayItem }) => {
  const { capture, outlines, form } = item;
  return (
    <>
      <figure>
        <CaptureView capture={capture} outlines={outlines} alt={`Bed with ${outlines.length} prints, numbered`} />
        <figcaption>
          <a class="capture-name" href={`/captures/${capture.id}`}>
            {capture.original.originalName}
          </a>{" "}
          seems to hold {outlines.length} prints.
        </figcaption>
      </figure>
      <div>
        <Failure item={item} />
        <form class="assign" method="post" action={`/captures/${capture.id}/divide`}>
          <Refusals refusals={form.refusals.filter((refusal) => !/^part\d+$/.test(refusal.about ?? ""))} />
          <p class="hint">
            Say which print each part shows. A part left open goes into the tray by itself; one that is no print is left out. The file stays
            as it came; the parts are only marked in it.
          </p>
          <div class="field-row">
            {outlines.map((_, index) => (
              <div class="bed-part">
                <PrintNumberField
                  form={form}
                  id={`part-${capture.id}-${index + 1}`}
                  name={`part${index + 1}`}
                  label={`Print in part ${index + 1}`}
                />
                <label class="check">
                  <input type="checkbox" name={`leave${index + 1}`} checked={form.typed[`leave${index + 1}`] !== undefined} /> Part{" "}
                  {index + 1} is no print
                </label>
              </div>
            ))}
          </div>
          <p class="actions">
            <button class="button" type="submit">
              Divide into {outlines.length}
            </button>
          </p>
        </form>
        <details>
          <summary>It shows only one print</summary>
          <AssignForm item={item} />
        </details>
      </div>
    </>
  );
};

const newPrintAddress = (number: string | undefined) => (number ? `/prints/new?objectNumber=${encodeURIComponent(number)}` : "/prints/new");
