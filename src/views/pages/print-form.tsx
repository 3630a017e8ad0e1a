import { findFormat } from "#domain/print/format.ts";
import { findProcess } from "#domain/print/process.ts";
import { type PlaceNode, pathInWords } from "#domain/storage/place-tree.ts";
import type { ShownCapture } from "../parts/capture-card.tsx";
import { SideField } from "../parts/capture-fields.tsx";
import { CaptureView } from "../parts/capture-view.tsx";
import { draft } from "../parts/draft.ts";
import type { FormState } from "../parts/field.tsx";
import { FileName } from "../parts/file-name.tsx";
import { Layout } from "../parts/layout.tsx";
import { PRINT_LABELS, PrintFields } from "../parts/print-fields.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";
import { type Difference, SavedMeanwhile } from "../parts/saved-meanwhile.tsx";

export type PrintFormPageProps = {
  collectionName: string;
  form: FormState;
  places: readonly PlaceNode[];
  /** the print being changed; null for a new one */
  print: { readonly id: number; readonly objectNumber: string; readonly title: string } | null;
  /** what changes whenever a print is saved, by which a kept draft is known to be saved */
  savedLast: string;
  /** the form was sent and comes back */
  isAnswer: boolean;
  /** a capture in the tray that shows the new print, and belongs to it once it is saved */
  capture?: ShownCapture | null;
  /** what somebody else has saved since this form was opened: only the fields that differ from what was typed */
  savedMeanwhile?: readonly Difference[];
};

/** Enter a new print, or change the record of one. */
export function PrintFormPage(props: PrintFormPageProps) {
  const { print, form } = props;
  // of a record that was saved since, what was typed over the older one is not put back: it would undo the newer
  const draftKey = print === null ? `new print ${form.typed.capture ?? ""}` : `print ${print.id} as of ${props.savedLast}`;
  const title = print === null ? "New print" : "Edit print";
  return (
    <Layout
      title={print === null ? title : `${title} ${print.objectNumber}`}
      section="prints"
      collectionName={props.collectionName}
      scripts={["draft.js"]}
    >
      <div class="page page-form">
        <header class="page-head">
          <div>
            <h1>{title}</h1>
            {print === null ? (
              <p>Number and title are enough to begin with. Leave empty what nobody knows.</p>
            ) : (
              <p>
                <span class="object-number">{print.objectNumber}</span> {print.title}
              </p>
            )}
          </div>
        </header>
        <RefusalSummary refusals={form.refusals} labels={PRINT_LABELS} />
        <SavedMeanwhile
          differences={props.savedMeanwhile ?? []}
          labels={PRINT_LABELS}
          inWords={(name, value) => wordsFor(name, value, props.places)}
        />
        <form
          class="record"
          method="post"
          action={print === null ? "/prints" : `/prints/${print.id}`}
          novalidate
          {...draft(draftKey, props.savedLast, props.isAnswer)}
        >
          {print === null ? null : <input type="hidden" name="revision" value={form.typed.revision ?? ""} />}
          {props.capture ? <ItsCapture capture={props.capture} form={form} /> : null}
          <PrintFields form={form} places={props.places} />
          <div class="record-foot">
            <button class="button" type="submit">
              {print === null ? "Save the new print" : "Save the changes"}
            </button>
            <a href={print === null ? "/prints" : `/prints/${print.id}`}>Leave without saving</a>
          </div>
        </form>
        {print === null ? null : <ToTheBin print={print} />}
      </div>
    </Layout>
  );
}

const ItsCapture = ({ capture, form }: { capture: ShownCapture; form: FormState }) => (
  <section class="card stack" aria-labelledby="capture-title">
    <h2 id="capture-title">Its capture</h2>
    <CaptureView capture={capture} outlines={[]} alt={`The capture ${capture.name}`} />
    <p>
      <FileName name={capture.name} /> waits in the tray and belongs to this print once it is saved.
    </p>
    <input type="hidden" name="capture" value={form.typed.capture} />
    <SideField form={form} />
  </section>
);

function wordsFor(name: string, value: string, places: readonly PlaceNode[]) {
  if (name === "processId") return findProcess(value)?.name ?? value;
  if (name === "formatId") return findFormat(value)?.name ?? value;
  const place = name === "placeId" ? places.find((each) => String(each.id) === value) : undefined;
  return place ? pathInWords(place.path) : value;
}

const ToTheBin = ({ print }: { print: NonNullable<PrintFormPageProps["print"]> }) => (
  <form class="card to-the-bin" method="post" action={`/prints/${print.id}/bin`}>
    <h2>Put this print into the bin</h2>
    <p>
      It no longer counts and no list shows it. Nothing is destroyed: its captures stay, it can be restored at any time, and number{" "}
      <span class="object-number">{print.objectNumber}</span> is not given to another print.
    </p>
    <button class="button button-danger" type="submit">
      Put into the bin
    </button>
  </form>
);
