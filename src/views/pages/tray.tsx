import type { Side } from "#domain/capture/capture.ts";
import { partsTyped, typedFrom } from "#domain/capture/corner-fields.ts";
import { counted } from "../format/counted.ts";
import { CaptureCard, type ShownCapture } from "../parts/capture-card.tsx";
import { PrintNumberField, PrintNumbers, SideField } from "../parts/capture-fields.tsx";
import { CaptureView } from "../parts/capture-view.tsx";
import { CornerFields } from "../parts/corner-editor.tsx";
import { draftOfOne } from "../parts/draft.ts";
import type { FormState, Typed } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";
import { type NotMeasured, NotMeasuredNote } from "../parts/not-measured.tsx";
import { DoneNotice } from "../parts/notice.tsx";
import type { ShownOutline } from "../parts/outline-overlay.tsx";
import { Paging } from "../parts/paging.tsx";
import { Refusals } from "../parts/refusals.tsx";
import { TogetherForm } from "../parts/together-form.tsx";
import { type WorkCounts, WorkProgress } from "../parts/work-progress.tsx";

/** A capture without print, with the side its name tells and the prints that were found on it. */
export type TrayItem = {
  readonly capture: ShownCapture;
  readonly side: Side;
  readonly outlines: readonly ShownOutline[];
  readonly notMeasured: NotMeasured | null;
};

/** Captures whose names start with one object number, or one whose name holds none. */
export type TrayLot = {
  readonly number: string | null;
  /** the print of this number; null where it is not catalogued yet */
  readonly printId: number | null;
  readonly items: readonly TrayItem[];
  /** a form that was refused, by the first capture it was about */
  readonly refused: { readonly captureId: number; readonly form: FormState } | null;
};

export type TrayPageProps = {
  collectionName: string;
  /** captures on all pages */
  total: number;
  page: number;
  pages: number;
  lots: readonly TrayLot[];
  objectNumbers: readonly string[];
  work: WorkCounts;
  done?: string;
};

/** Captures that wait to be told which print they show. */
export const TrayPage = ({ collectionName, total, page, pages, lots, objectNumbers, work, done }: TrayPageProps) => (
  <Layout title="Tray" section="add" collectionName={collectionName} scripts={["corners.js", "draft.js"]}>
    <div class="page">
      <header class="page-head">
        <div>
          <h1>Tray</h1>
          <p>
            {total === 0
              ? "Empty"
              : `${counted(total, "capture waits to be told which print it shows", "captures wait to be told which print each shows")}.`}
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
      {total === 0 ? <p>Nothing waits. A capture comes here where nobody has said yet which print it shows.</p> : null}
      <PrintNumbers numbers={objectNumbers} />
      <ol class="tray">{lots.map((lot) => cardsOf(lot))}</ol>
      <Paging page={page} perPage={1} total={pages} href={(to) => `/tray?page=${to}`} />
    </div>
  </Layout>
);

/** Beds are divided one by one; the others of a lot are told their print together. */
function cardsOf(lot: TrayLot) {
  const beds = lot.items.filter(({ outlines }) => outlines.length > 1);
  const others = lot.items.filter(({ outlines }) => outlines.length <= 1);
  const [only] = others;
  return (
    <>
      {others.length > 1 ? <Together lot={lot} items={others} /> : null}
      {others.length === 1 && only ? (
        <li class="card tray-item" id={`capture-${only.capture.id}`}>
          <Single lot={lot} item={only} />
        </li>
      ) : null}
      {beds.map((item) => (
        <li class="card tray-item" id={`capture-${item.capture.id}`}>
          <Bed lot={lot} item={item} />
        </li>
      ))}
    </>
  );
}

const Together = ({ lot, items }: { lot: TrayLot; items: readonly TrayItem[] }) => {
  const first = items[0]?.capture.id ?? 0;
  const form = formOf(lot, first, {});
  return (
    <li class="card tray-lot stack">
      <h2>
        {counted(items.length, "capture", "captures")} of <span class="object-number">{lot.number}</span>, by their names
      </h2>
      {items.map((item) => (
        <Failure item={item} />
      ))}
      <Refusals refusals={form.refusals.filter((refusal) => refusal.about !== "print")} />
      <TogetherForm waiting={items} form={form} submit="Assign these together">
        <div class="field-row">
          <PrintNumberField form={form} id={`print-${first}`} hint={hintOf(lot)} isRequired />
        </div>
      </TogetherForm>
      <Elsewhere captureId={first} form={form} lot={lot} />
    </li>
  );
};

const Single = ({ lot, item }: { lot: TrayLot; item: TrayItem }) => (
  <>
    <CaptureCard capture={item.capture} />
    <div>
      <Failure item={item} />
      <AssignForm lot={lot} item={item} />
    </div>
  </>
);

const Failure = ({ item: { capture, notMeasured } }: { item: TrayItem }) =>
  notMeasured?.isFailed ? <NotMeasuredNote captureId={capture.id} why={notMeasured} from="tray" /> : null;

const AssignForm = ({ lot, item: { capture, side } }: { lot: TrayLot; item: TrayItem }) => {
  const form = formOf(lot, capture.id, { side });
  return (
    <form class="assign" method="post" action={`/captures/${capture.id}/print`} {...draftOfOne(`tray ${capture.id} ${capture.name}`)}>
      <Refusals refusals={form.refusals.filter((refusal) => refusal.about !== "print")} />
      <div class="field-row">
        <PrintNumberField form={form} id={`print-${capture.id}`} hint={hintOf(lot)} isRequired />
        <SideField form={form} id={`side-${capture.id}`} />
      </div>
      <div class="actions">
        <button class="button" type="submit">
          Assign
        </button>
        <Elsewhere captureId={capture.id} form={form} lot={lot} />
      </div>
    </form>
  );
};

/** What else can be done where the number is not known, or no print has it. */
const Elsewhere = ({ captureId, form, lot }: { captureId: number; form: FormState; lot: TrayLot }) => (
  <p class="actions">
    <a href={`/captures/${captureId}/likely-prints`}>Look which print it shows</a>
    <a href={newPrintAddress(captureId, form.refusals.length > 0 ? form.typed.print : undefined)}>
      {lot.number !== null && lot.printId === null ? `Catalogue ${lot.number}` : "It shows a print that is not catalogued yet"}
    </a>
  </p>
);

const hintOf = ({ number, printId }: TrayLot): string | undefined => {
  if (number === null) return undefined;
  return printId === null ? "Read from the file name. No print has this number yet." : "Read from the file name.";
};

/** What a form shows: the number in the name, unless the form was sent and refused. */
const formOf = (lot: TrayLot, captureId: number, typed: Typed): FormState =>
  lot.refused?.captureId === captureId ? lot.refused.form : { typed: { print: lot.number ?? "", ...typed }, refusals: [] };

/** A bed that seems to hold several prints: each part is told its own print, and its corners are set right. */
const Bed = ({ lot, item }: { lot: TrayLot; item: TrayItem }) => {
  const { capture, outlines } = item;
  const form = formOf(lot, capture.id, {});
  const typed = { ...Object.assign({}, ...outlines.map(({ sheet }, index) => typedFrom(index + 1, sheet))), ...form.typed };
  const parts = partsTyped(typed);
  const pictureId = `bed-${capture.id}`;
  return (
    <>
      <figure>
        <CaptureView id={pictureId} capture={capture} outlines={outlines} alt={`Bed with ${outlines.length} prints, numbered`} />
        <figcaption>
          <a class="capture-name" href={`/captures/${capture.id}`}>
            {capture.name}
          </a>{" "}
          seems to hold {outlines.length} prints.
        </figcaption>
      </figure>
      <div>
        <Failure item={item} />
        <form
          class="assign"
          method="post"
          action={`/captures/${capture.id}/divide#capture-${capture.id}`}
          data-corners-of={pictureId}
          novalidate
        >
          <Refusals refusals={form.refusals.filter((refusal) => !/^part\d+(-corners)?$/.test(refusal.about ?? ""))} />
          <p class="hint">
            Say which print each part shows. A part left open goes into the tray by itself; one that is no print is left out. The file stays
            as it came; the parts are only marked in it.
          </p>
          <p class="hint">
            Look whether each corner sits on its sheet. Corners are dragged, or moved with the arrow keys (ten times as far with Shift), or
            typed below.
          </p>
          <div class="field-row">
            {parts.map((part) => (
              <div class="bed-part">
                {part <= outlines.length ? (
                  <figure class="straight-sheet">
                    <img src={`/captures/${capture.id}/sheets/${part}.jpg`} alt={`Part ${part}, straightened`} loading="lazy" />
                    <figcaption>Part {part} as found</figcaption>
                  </figure>
                ) : null}
                <PrintNumberField form={form} id={`part-${capture.id}-${part}`} name={`part${part}`} label={`Print in part ${part}`} />
                <label class="check">
                  <input type="checkbox" name={`leave${part}`} checked={form.typed[`leave${part}`] !== undefined} /> Part {part} is no print
                </label>
                <CornerFields of={capture.id} part={part} typed={typed} refusals={form.refusals} isOpen={part > outlines.length} />
              </div>
            ))}
          </div>
          <input type="hidden" name="drawn" value="" />
          <p class="actions">
            <button class="button" type="submit">
              Divide the bed
            </button>
            <button class="button button-quiet" type="submit" name="add" value="part" data-add-part>
              Add a part
            </button>
          </p>
        </form>
        <details>
          <summary>It shows only one print</summary>
          <AssignForm lot={lot} item={item} />
        </details>
      </div>
    </>
  );
};

/** @param typed a number that was typed and that no print has */
const newPrintAddress = (captureId: number, typed: string | undefined) =>
  `/prints/new?capture=${captureId}${typed ? `&objectNumber=${encodeURIComponent(typed)}` : ""}`;
