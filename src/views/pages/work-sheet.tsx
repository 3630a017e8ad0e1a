import { purposeInSentence } from "#domain/aim/aim.ts";
import { METHOD_LABELS } from "#domain/capture/method.ts";
import type { Caution } from "#domain/condition/cautions-for.ts";
import type { Refusal } from "#domain/outcome.ts";
import type { RowState } from "#domain/recapture/judged-row.ts";
import type { Advice, RecaptureReason } from "#domain/recapture/recapture-line.ts";
import { PRIORITY_FACTORS, type RecapturePriority } from "#domain/recapture/recapture-priority.ts";
import { type OrderedRow, placesOnSheet } from "#domain/recapture/sheet-order.ts";
import { capital } from "#domain/sentence.ts";
import { pathInWords } from "#domain/storage/place-tree.ts";
import { counted } from "../format/counted.ts";
import { AdviceList } from "../parts/advice-list.tsx";
import { CautionTexts, CautionTitles, StandCautions } from "../parts/cautions.tsx";
import type { FormState } from "../parts/field.tsx";
import { GoodEnough, GoodEnoughRefusal } from "../parts/good-enough.tsx";
import { Layout } from "../parts/layout.tsx";
import { Moment } from "../parts/moment.tsx";
import { DoneNotice } from "../parts/notice.tsx";
import { OVERLAY_LABELS, Overlays, type ShownOverlay } from "../parts/overlays.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";
import { countsInWords } from "./work-sheets.tsx";

export type ShownSheetRow = OrderedRow & {
  readonly id: number;
  readonly printId: number;
  readonly title: string;
  readonly priority: RecapturePriority;
  readonly reasons: readonly RecaptureReason[];
  readonly advice: readonly Advice[];
  readonly state: RowState;
  readonly openedAgainAt: string | null;
  readonly cautions: readonly Caution[];
  readonly picture: {
    readonly captureId: number;
    readonly fileName: string;
    readonly widthPx: number;
    readonly heightPx: number;
    readonly overlays: readonly ShownOverlay[];
  } | null;
  readonly closedBy: { readonly captureId: number; readonly fileName: string } | null;
  /** why it is not asked for, where a person said so and that still holds */
  readonly goodEnough: { readonly reason: string; readonly who: string | null; readonly createdAt: string } | null;
};

export type WorkSheetPageProps = {
  collectionName: string;
  sheet: {
    readonly id: number;
    readonly name: string;
    readonly purpose: { readonly key: string; readonly name: string };
    readonly createdAt: string;
    readonly putAwayAt: string | null;
    readonly counts: Readonly<Record<RowState, number>>;
  };
  rows: readonly ShownSheetRow[];
  refused: { readonly rowId: number; readonly form: FormState } | null;
  /** of the whole sheet */
  refusals: readonly Refusal[];
  done?: string | undefined;
  /** sides that the sheet had no room for when it was made just now */
  lessUrgent: number;
};

/** A sheet for the copy stand: on paper, or ticked off by phone. */
export function WorkSheetPage({ collectionName, sheet, rows, refused, refusals, done, lessUrgent }: WorkSheetPageProps) {
  const defers = [...new Set(rows.flatMap(({ cautions }) => cautions.map(({ defer }) => defer)))];
  return (
    <Layout title={sheet.name} section="recapture" collectionName={collectionName}>
      <div class="page work-sheet">
        <header class="page-head">
          <div>
            <p class="work-sheet-way">
              <a href="/work-sheets">Work sheets</a>
            </p>
            <h1>{sheet.name}</h1>
            <p>
              For {purposeInSentence(sheet.purpose)}, made <Moment at={sheet.createdAt} />. {countsInWords(sheet.counts)}.
            </p>
          </div>
        </header>
        <DoneNotice done={done} />
        {refusals.length > 0 ? <RefusalSummary refusals={refusals} labels={{}} title="The sheet was not put away." /> : null}
        <PutAway sheet={sheet} />
        {lessUrgent > 0 ? (
          <p>
            {counted(lessUrgent, "side that is less urgent was", "sides that are less urgent were")} left out, and{" "}
            {lessUrgent === 1 ? "stays" : "stay"} on the <a href="/recapture">recapture list</a> for another sheet.
          </p>
        ) : null}
        <GoodEnoughRefusal
          form={refused?.form ?? null}
          lineId={refused && rows.some((row) => row.id === refused.rowId && isWaiting(row)) ? `row-${refused.rowId}` : null}
        />
        {defers.map((line) => (
          <p class="small">{line}</p>
        ))}
        {rows.length === 0 ? <p>The prints of this sheet lie in the bin.</p> : null}
        {placesOnSheet(rows).map(({ placePath, setUps }) => (
          <section class="sheet-place">
            <details class="sheet-fold" open data-fold-on-phone>
              <summary>
                <h2>{placePath.length === 0 ? "Place not known" : pathInWords(placePath)}</h2>{" "}
                <span class="soft">{waitingInWords(setUps)}</span>
              </summary>
              <CautionTexts cautions={waitingIn(setUps).flatMap(({ cautions }) => cautions)} />
              {setUps.map(({ method, setUpName, rows: within }) => (
                <section>
                  <h3>
                    {method ? METHOD_LABELS[method] : "Ask a conservator first"}
                    {setUpName ? `: ${setUpName}` : ""}
                  </h3>
                  <StandCautions method={method} />
                  <ol class="sheet-rows">
                    {within.map((row) => (
                      <SheetRow
                        sheetId={sheet.id}
                        purposeKey={sheet.purpose.key}
                        row={row}
                        refusedForm={refused?.rowId === row.id ? refused.form : null}
                      />
                    ))}
                  </ol>
                </section>
              ))}
            </details>
          </section>
        ))}
        <script src="/assets/fold-on-phone.js"></script>
      </div>
    </Layout>
  );
}

/** Offered once nothing of the sheet waits any more. */
const PutAway = ({ sheet: { id, putAwayAt, counts } }: Pick<WorkSheetPageProps, "sheet">) =>
  counts.open + counts.ticked > 0 ? null : (
    <form class="actions" method="post" action={`/work-sheets/${id}/put-away`}>
      <button class="button button-quiet" type="submit" name="step" value={putAwayAt === null ? "put-away" : "take-out"}>
        {putAwayAt === null ? "All done: put this sheet away" : "Take this sheet out again"}
      </button>
    </form>
  );

const waitingIn = (setUps: readonly { readonly rows: readonly ShownSheetRow[] }[]): ShownSheetRow[] =>
  setUps.flatMap(({ rows }) => rows.filter(isWaiting));

function waitingInWords(setUps: readonly { readonly rows: readonly ShownSheetRow[] }[]): string {
  const all = setUps.reduce((sum, { rows }) => sum + rows.length, 0);
  const waiting = waitingIn(setUps).length;
  return waiting === 0 ? `${counted(all, "side", "sides")}, all done` : `${waiting} of ${counted(all, "side", "sides")} to do`;
}

/** What still has to be captured. */
export const isWaiting = ({ state }: Pick<ShownSheetRow, "state">): boolean => state === "open" || state === "ticked";

type SheetRowProps = { sheetId: number; purposeKey: string; row: ShownSheetRow; refusedForm: FormState | null };

function SheetRow({ sheetId, purposeKey, row, refusedForm }: SheetRowProps) {
  const { id, printId, objectNumber, title, side, state, reasons, advice, picture } = row;
  const waits = isWaiting(row);
  return (
    <li class={`sheet-row sheet-row-${state}`} id={`row-${id}`}>
      <div class="sheet-cautions">
        <CautionTitles cautions={row.cautions} />
      </div>
      <div class="sheet-what">
        <h4>
          <span class="sheet-box" aria-hidden="true">
            {state === "open" ? "☐" : "☑"}
          </span>{" "}
          <a href={`/prints/${printId}`}>
            <span class="object-number">{objectNumber}</span>
          </a>
          {side === "back" ? " (back)" : ""} {title}
        </h4>
        <State sheetId={sheetId} row={row} />
        {waits ? (
          <>
            {reasons.length > 0 ? (
              <ul class="reasons">
                {reasons.map((reason) => (
                  <li>
                    {reason.sentence}
                    <AdviceList advice={reason.advice} objectNumber={objectNumber} purposeKey={purposeKey} />
                  </li>
                ))}
              </ul>
            ) : null}
            <AdviceList advice={advice} objectNumber={objectNumber} purposeKey={purposeKey} />
            <Priority priority={row.priority} />
          </>
        ) : null}
      </div>
      {waits && picture ? <FailingPicture rowId={id} picture={picture} /> : null}
      {waits ? (
        <div class="sheet-acts">
          <form method="post" action={`/work-sheets/${sheetId}/rows/${id}`}>
            <button
              class={state === "open" ? "button" : "button button-quiet"}
              type="submit"
              name="step"
              value={state === "open" ? "tick" : "untick"}
            >
              {state === "open" ? "Captured" : "Not captured after all"}
              <span class="visually-hidden">: {objectNumber}</span>
            </button>
          </form>
          <GoodEnough action={`/work-sheets/${sheetId}/rows/${id}`} id={`row-${id}`} form={refusedForm} />
        </div>
      ) : null}
    </li>
  );
}

const LetGo = ({ sheetId, row: { id, objectNumber, goodEnough } }: { sheetId: number; row: ShownSheetRow }) => (
  <>
    <p class="sheet-state">Good enough: not asked for again.</p>
    {goodEnough ? (
      <>
        <p>“{goodEnough.reason}”</p>
        <p class="small soft">
          {goodEnough.who ?? "Somebody"}, <Moment at={goodEnough.createdAt} />
        </p>
        <form method="post" action={`/work-sheets/${sheetId}/rows/${id}`}>
          <button class="button button-quiet button-small" type="submit" name="step" value="ask-again">
            Ask again after all<span class="visually-hidden">: {objectNumber}</span>
          </button>
        </form>
      </>
    ) : null}
  </>
);

function State({ sheetId, row }: { sheetId: number; row: ShownSheetRow }) {
  const { state, openedAgainAt, closedBy } = row;
  if (state === "closed")
    return (
      <p class="sheet-state">
        Done
        {closedBy ? (
          <>
            : <a href={`/captures/${closedBy.captureId}`}>{closedBy.fileName}</a> meets the aim.
          </>
        ) : (
          ": its best capture meets the aim now."
        )}
      </p>
    );
  if (state === "let-go") return <LetGo sheetId={sheetId} row={row} />;
  if (state === "ticked") return <p class="sheet-state">Captured at the stand. The row closes when the file is added and meets the aim.</p>;
  return openedAgainAt ? (
    <p class="sheet-state">
      Open again since <Moment at={openedAgainAt} />:{" "}
      {row.reasons.length > 0 ? "the capture it has now falls short." : "it has no measured capture that counts."}
    </p>
  ) : null;
}

function Priority({ priority }: { priority: RecapturePriority }) {
  const range = priority.least === priority.most ? "" : `, ${priority.least} to ${priority.most} by what is not known`;
  const reasons = PRIORITY_FACTORS.map((name) => `${capital(name)}: ${priority.factors[name].because}.`).join(" ");
  return (
    <>
      <details class="small soft sheet-priority">
        <summary>
          Priority {priority.score}
          {range}: {PRIORITY_FACTORS.map((name) => `${name} ${priority.factors[name].score}`).join(" × ")}
        </summary>
        <p>{reasons}</p>
      </details>
      {/* what is folded away is not printed, so paper has it once more */}
      <p class="small sheet-priority-on-paper">{reasons}</p>
    </>
  );
}

function FailingPicture({ rowId, picture }: { rowId: number; picture: NonNullable<ShownSheetRow["picture"]> }) {
  const { captureId, fileName, widthPx, heightPx, overlays } = picture;
  return (
    <figure class="sheet-picture">
      <div class="sheet-picture-frame">
        <img
          src={`/captures/${captureId}/view.jpg`}
          alt={overlays.length > 0 ? `${fileName}, with the places that fail marked` : fileName}
          width={widthPx}
          height={heightPx}
          loading="lazy"
        />
        {overlays.length > 0 ? <Overlays widthPx={widthPx} heightPx={heightPx} overlays={overlays} on={`row${rowId}`} /> : null}
      </div>
      <figcaption class="small">
        {fileName}
        {overlays.map(({ id, words }) => (
          <span class="second-line">
            {OVERLAY_LABELS[id]}: {words}
          </span>
        ))}
      </figcaption>
    </figure>
  );
}
