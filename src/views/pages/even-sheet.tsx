import type { FormState } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";
import { NewEvenSheet } from "../parts/new-check.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";

export type EvenSheetPageProps = {
  collectionName: string;
  setUp: { readonly id: number; readonly name: string };
  form: FormState;
};

const LABELS = { picture: "Picture of the sheet", takenOn: "Taken on", note: "Note" };

/** The form for a picture of an even sheet. */
export const EvenSheetPage = ({ collectionName, setUp, form }: EvenSheetPageProps) => (
  <Layout title={`Evenness of ${setUp.name}`} section="add" collectionName={collectionName}>
    <div class="page">
      <header class="page-head">
        <div>
          <p>
            <a href={`/set-ups/${setUp.id}/checks`}>Target checks of {setUp.name}</a>
          </p>
          <h1>Evenness from a white sheet</h1>
          <p>
            How even light and lens are over the whole frame: standard deviation over mean of lightness, as FADGI 2016 and 36 CFR 1236.50
            ask. A target covers a part of the frame only.
          </p>
        </div>
      </header>
      <RefusalSummary
        refusals={form.refusals}
        labels={LABELS}
        title="No check was kept. Choose the file anew: a browser does not keep it."
      />
      <NewEvenSheet setUpId={setUp.id} form={form} />
    </div>
  </Layout>
);
