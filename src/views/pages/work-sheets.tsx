import type { Purpose } from "#domain/aim/aim.ts";
import { isAway, type SheetCounts } from "#domain/recapture/work-sheet.ts";
import { MOST_SHEET_ROWS } from "#domain/recapture/work-sheet-input.ts";
import { counted } from "../format/counted.ts";
import { ChoiceField, type FormState, TextField } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";
import { Moment } from "../parts/moment.tsx";
import { DoneNotice } from "../parts/notice.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";

type ListedSheet = {
  readonly id: number;
  readonly name: string;
  readonly createdAt: string;
  readonly putAwayAt: string | null;
  readonly counts: SheetCounts;
};

export type WorkSheetsPageProps = {
  collectionName: string;
  sheets: readonly ListedSheet[];
  purposes: readonly Purpose[];
  places: readonly { readonly id: number; readonly name: string; readonly prints: number }[];
  form: FormState;
  done?: string | undefined;
};

const LABELS = { purpose: "Purpose", placeId: "Place", why: "What is missing", most: "At most", name: "Name" };

/** The sheets that were made, and the form that makes one from the recapture list. */
export function WorkSheetsPage({ collectionName, sheets, purposes, places, form, done }: WorkSheetsPageProps) {
  const away = sheets.filter(isAway);
  const inSight = sheets.filter((sheet) => !isAway(sheet));
  return (
    <Layout title="Work sheets" section="recapture" collectionName={collectionName}>
      <div class="page">
        <header class="page-head">
          <div>
            <p>
              <a href="/recapture">Recapture</a>
            </p>
            <h1>Work sheets</h1>
            <p>
              A work sheet is the recapture list of a day, in the order of the work: each box is opened once, each set-up made once. A new
              capture closes its row by itself where it meets the aim, and opens it again with the new reason where it does not.
            </p>
          </div>
        </header>
        <DoneNotice done={done} />
        <RefusalSummary refusals={form.refusals} labels={LABELS} />
        {inSight.length > 0 ? (
          <section class="card" aria-labelledby="made-title">
            <h2 id="made-title">Made</h2>
            <ul class="rounds">
              {inSight.map((sheet) => (
                <Listed sheet={sheet} />
              ))}
            </ul>
          </section>
        ) : null}
        <form class="card stack" method="post" action="/work-sheets" novalidate>
          <h2>Make a work sheet</h2>
          <div class="field-grid">
            <ChoiceField
              form={form}
              name="purpose"
              label={LABELS.purpose}
              choices={purposes.map(({ key, name }) => ({ value: key, label: name }))}
            />
            <ChoiceField
              form={form}
              name="placeId"
              label={LABELS.placeId}
              none="Everywhere"
              choices={places
                .filter(({ prints }) => prints > 0)
                .map(({ id, name, prints }) => ({ value: String(id), label: `${name} (${counted(prints, "print", "prints")})` }))}
            />
            <ChoiceField
              form={form}
              name="why"
              label={LABELS.why}
              none="Both"
              choices={[
                { value: "no-capture", label: "Prints without any capture" },
                { value: "falls-short", label: "Prints whose best capture falls short" },
              ]}
            />
            <TextField
              form={form}
              name="most"
              label={LABELS.most}
              unit="rows"
              inputMode="numeric"
              most={3}
              hint={`The most urgent ones, ${MOST_SHEET_ROWS} or fewer. Empty: ${MOST_SHEET_ROWS}.`}
            />
            <TextField form={form} name="name" label={LABELS.name} hint="Empty: purpose, place and day." most={120} />
          </div>
          <p class="actions">
            <button class="button" type="submit">
              Make the work sheet
            </button>
          </p>
        </form>
        {away.length > 0 ? (
          <details class="card">
            <summary>Put away: {counted(away.length, "work sheet", "work sheets")}</summary>
            <ul class="rounds">
              {away.map((sheet) => (
                <Listed sheet={sheet} />
              ))}
            </ul>
          </details>
        ) : null}
      </div>
    </Layout>
  );
}

const Listed = ({ sheet: { id, name, createdAt, counts } }: { sheet: ListedSheet }) => (
  <li>
    <a href={`/work-sheets/${id}`}>{name}</a>{" "}
    <span class="soft">
      {countsInWords(counts)}. Made <Moment at={createdAt} />
    </span>
  </li>
);

/** “2 of 9 done, 1 ticked off at the stand” */
export function countsInWords({ open, ticked, closed, "let-go": letGo }: SheetCounts): string {
  const all = open + ticked + closed + letGo;
  return [
    `${closed} of ${counted(all, "side", "sides")} done`,
    ...(ticked > 0 ? [`${ticked} ticked off at the stand`] : []),
    ...(letGo > 0 ? [`${letGo} good enough`] : []),
  ].join(", ");
}
