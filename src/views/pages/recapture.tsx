import { type Purpose, purposeInSentence } from "#domain/aim/aim.ts";
import { METHOD_LABELS } from "#domain/capture/method.ts";
import type { Caution } from "#domain/condition/cautions-for.ts";
import type { MethodStop } from "#domain/condition/method-stop.ts";
import type { RecaptureLine } from "#domain/recapture/recapture-line.ts";
import { pathInWords } from "#domain/storage/place-tree.ts";
import { counted } from "../format/counted.ts";
import { AdviceList } from "../parts/advice-list.tsx";
import { CautionMark } from "../parts/cautions.tsx";
import type { FormState } from "../parts/field.tsx";
import { GoodEnough, GoodEnoughRefusal } from "../parts/good-enough.tsx";
import { Layout } from "../parts/layout.tsx";
import { notWith } from "../parts/method-stop.tsx";
import { Moment } from "../parts/moment.tsx";
import { DoneNotice } from "../parts/notice.tsx";
import { Paging } from "../parts/paging.tsx";
import { SeeShared, type SharedAdvice, SharedAdviceList, sharedAdvice } from "../parts/shared-advice.tsx";
import type { WaitingCapture } from "../parts/together-form.tsx";

export type ShownRecapture = RecaptureLine & {
  readonly cautions: readonly Caution[];
  readonly keptFrom: readonly MethodStop[];
  /** captures in the tray that carry the print's number and this side in their names */
  readonly inTray: readonly WaitingCapture[];
};

export type ShownExemption = {
  readonly id: number;
  readonly printId: number;
  readonly objectNumber: string;
  readonly title: string;
  readonly side: "front" | "back";
  readonly fileName: string | null;
  readonly reason: string;
  readonly who: string | null;
  readonly createdAt: string;
};

/** A line whose reason was not taken, with what was typed. */
export type RefusedLine = { readonly printId: number; readonly side: "front" | "back"; readonly form: FormState };

export type RecapturePageProps = {
  collectionName: string;
  purposes: readonly Purpose[];
  purposeKey: string;
  /** no print was entered yet, so that nothing can be missing */
  isEmptyCollection: boolean;
  /** how many lines there are on all pages */
  counts: Readonly<Record<RecaptureLine["why"], number>>;
  /** of the lines: a print may have one for either side */
  printCount: number;
  /** of this page */
  lines: readonly ShownRecapture[];
  /** what a person said is good enough for this purpose */
  exemptions: readonly ShownExemption[];
  refused: RefusedLine | null;
  done?: string | undefined;
  /** counted from 1 */
  page: number;
  perPage: number;
};

/** Which prints have to be captured again for a purpose, why, and what to change: the sheet to work from. */
export function RecapturePage(props: RecapturePageProps) {
  const { purposes, purposeKey, lines, counts, refused, page, perPage } = props;
  const total = counts["no-capture"] + counts["falls-short"];
  const shared = sharedAdvice(lines);
  const of = { ...props, shared };
  return (
    <Layout title="Recapture" section="recapture" collectionName={props.collectionName}>
      <div class="page">
        <header class="page-head">
          <div>
            <h1>Recapture</h1>
            <p>{howMuch(props)}</p>
            {total > 0 ? (
              <p>
                <a href={`/plan?purpose=${purposeKey}`}>Plan how to capture them</a>
              </p>
            ) : null}
          </div>
          <nav class="switch" aria-label="Purpose">
            {purposes.map((each) => (
              <a href={`/recapture?purpose=${each.key}`} aria-current={each.key === purposeKey ? "page" : undefined}>
                {each.name}
              </a>
            ))}
          </nav>
        </header>
        <DoneNotice done={props.done} />
        <GoodEnoughRefusal
          form={refused?.form ?? null}
          lineId={refused && lines.some((line) => isOf(line, refused)) ? lineId(refused) : null}
        />
        <p class="actions">
          {total > 0 ? (
            <a class="button" href={`/work-sheets?purpose=${purposeKey}`}>
              Make a work sheet
            </a>
          ) : null}
          <a class="button button-quiet" href="/work-sheets">
            Work sheets
          </a>
        </p>
        <SharedAdviceList shared={shared} />
        <Group
          title={`Without any capture: ${counted(counts["no-capture"], "side", "sides")}`}
          lines={lines.filter(({ why }) => why === "no-capture")}
          of={of}
        />
        <Group
          title={`Best capture falls short: ${counted(counts["falls-short"], "side", "sides")}`}
          lines={lines.filter(({ why }) => why === "falls-short")}
          of={of}
        />
        <Paging page={page} perPage={perPage} total={total} href={(to) => `/recapture?purpose=${purposeKey}&page=${to}`} />
        <Exemptions exemptions={props.exemptions} purposeKey={purposeKey} />
        <script src="/assets/fold-on-phone.js"></script>
      </div>
    </Layout>
  );
}

function howMuch({ isEmptyCollection, purposes, purposeKey, counts, printCount, lines, page, perPage }: RecapturePageProps): string {
  if (isEmptyCollection) return "There is no print in the collection yet, so nothing can be missing.";
  const total = counts["no-capture"] + counts["falls-short"];
  const purpose = purposes.find((each) => each.key === purposeKey);
  if (total === 0) return `Nothing has to be captured again${purpose ? ` for ${purposeInSentence(purpose)}` : ""}.`;
  const first = (page - 1) * perPage + 1;
  const span = total > perPage ? ` Lines ${first} to ${first + lines.length - 1} are shown.` : "";
  return `${counted(total, "side", "sides")} of ${counted(printCount, "print", "prints")} ${total === 1 ? "has" : "have"} to be captured again.${span}`;
}

const isOf = (line: ShownRecapture, refused: RefusedLine | null): boolean =>
  line.printId === refused?.printId && line.side === refused.side;

type Of = Pick<RecapturePageProps, "purposeKey" | "page" | "refused"> & { readonly shared: readonly SharedAdvice[] };

function Group({ title, lines, of }: { title: string; lines: readonly ShownRecapture[]; of: Of }) {
  if (lines.length === 0) return null;
  return (
    <section aria-label={title}>
      <section class="table-frame" aria-label={`${title}, table`} tabindex={0}>
        <table class="table recapture-table">
          <caption>{title}</caption>
          <thead>
            <tr>
              <th scope="col">Cautions</th>
              <th scope="col">Print</th>
              <th scope="col">Place</th>
              <th scope="col">Best there is</th>
              <th scope="col">What is missing, and what to change</th>
            </tr>
          </thead>
          <tbody>
            {lines.map((line) => (
              <Line line={line} of={of} />
            ))}
          </tbody>
        </table>
      </section>
    </section>
  );
}

const Line = ({ line, of }: { line: ShownRecapture; of: Of }) => (
  <tr>
    <td>
      <CautionMark cautions={line.cautions} />
      <span class="kept-from">{notWith(line.keptFrom)}</span>
    </td>
    <th scope="row">
      <a href={`/prints/${line.printId}`}>
        <span class="object-number">{line.objectNumber}</span>
      </a>
      {line.side === "back" ? " (back)" : ""}
      <span class="second-line">{line.title}</span>
    </th>
    <td>{line.placePath.length === 0 ? <span class="soft">not known</span> : pathInWords(line.placePath)}</td>
    <td>
      {line.best ? (
        <>
          <a href={`/captures/${line.best.captureId}`}>{line.best.fileName}</a>
          <span class="second-line">
            {line.best.method ? METHOD_LABELS[line.best.method] : "Method not known"}
            {line.best.setUpName ? `, ${line.best.setUpName}` : ""}
          </span>
        </>
      ) : (
        <span class="soft">no capture yet</span>
      )}
    </td>
    <td>
      <ul class="reasons">
        {line.reasons.map((reason) => (
          <li>
            {reason.sentence}
            <SeeShared advice={reason.advice} shared={of.shared} />
            <FoldedAdvice
              title="What to change"
              advice={reason.advice.filter(({ sentence }) => !of.shared.some((each) => each.sentence === sentence))}
              objectNumber={line.objectNumber}
              purposeKey={line.purposeKey}
            />
          </li>
        ))}
      </ul>
      <FoldedAdvice
        title={line.reasons.some(({ advice }) => advice.length > 0) ? "Which method to use" : "What to change"}
        advice={line.advice}
        objectNumber={line.objectNumber}
        purposeKey={line.purposeKey}
      />
      {line.inTray.map(({ capture }) => (
        <p class="small">
          In the tray, by its name of this print: <a href={`/tray?capture=${capture.id}#capture-${capture.id}`}>{capture.name}</a>. Say
          there that it shows the print, and this line may go away.
        </p>
      ))}
      {line.stillMeasuring ? <p class="small soft">Captures of it are still being measured, so this line may go away.</p> : null}
      <GoodEnough
        action="/recapture/good-enough"
        id={lineId(line)}
        form={isOf(line, of.refused) ? (of.refused?.form ?? null) : null}
        hidden={{ print: String(line.printId), side: line.side, purpose: of.purposeKey, page: String(of.page) }}
      />
    </td>
  </tr>
);

function Exemptions({ exemptions, purposeKey }: { exemptions: readonly ShownExemption[]; purposeKey: string }) {
  if (exemptions.length === 0) return null;
  return (
    <section class="card stack" id="good-enough" aria-labelledby="good-enough-title">
      <h2 id="good-enough-title">Good enough, not asked for again: {counted(exemptions.length, "side", "sides")}</h2>
      <ul class="due-list">
        {exemptions.map(({ id, printId, objectNumber, title, side, fileName, reason, who, createdAt }) => (
          <li>
            <a class="object-number" href={`/prints/${printId}`}>
              {objectNumber}
            </a>
            {side === "back" ? " (back)" : ""} {title}
            <span class="second-line">{fileName ?? "without any capture"}</span>
            <p>“{reason}”</p>
            <p class="small soft">
              {who ?? "Somebody"}, <Moment at={createdAt} />
            </p>
            <form method="post" action={`/recapture/exemptions/${id}/ask-again`}>
              <input type="hidden" name="purpose" value={purposeKey} />
              <button class="button button-quiet button-small" type="submit">
                Ask again<span class="visually-hidden"> for {objectNumber}</span>
              </button>
            </form>
          </li>
        ))}
      </ul>
      <p class="small soft">
        Each is asked for again by itself when its aim gets another version, when the capture leaves that side, and where there was none,
        when a first one is taken in.
      </p>
    </section>
  );
}

/** Sources and figures of twenty lines would push each other off a phone. */
const FoldedAdvice = ({ title, ...props }: Parameters<typeof AdviceList>[0] & { title: string }) =>
  props.advice.length === 0 ? null : (
    <details open data-fold-on-phone>
      <summary>
        {title}
        <span class="visually-hidden"> for {props.objectNumber}</span>
      </summary>
      <AdviceList {...props} />
    </details>
  );

const lineId = ({ printId, side }: { readonly printId: number; readonly side: string }): string => `line-${printId}-${side}`;
