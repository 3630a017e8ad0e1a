import type { FormState } from "../parts/field.tsx";
import { History, type ShownEvent } from "../parts/history.tsx";
import { Layout } from "../parts/layout.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";
import { type Difference, SavedMeanwhile } from "../parts/saved-meanwhile.tsx";
import { SET_UP_LABELS, SetUpFields } from "../parts/set-up-fields.tsx";

export type SetUpFormPageProps = {
  collectionName: string;
  setUp: { readonly id: number; readonly name: string };
  form: FormState;
  savedMeanwhile: readonly Difference[];
  history: readonly ShownEvent[];
};

/** Change what is said of a set-up. */
export const SetUpFormPage = ({ collectionName, setUp, form, savedMeanwhile, history }: SetUpFormPageProps) => (
  <Layout title={`Edit ${setUp.name}`} section="add" collectionName={collectionName}>
    <div class="page">
      <header class="page-head">
        <div>
          <h1>Edit set-up</h1>
          <p>
            Captures that name {setUp.name} go on naming it. The method that is said of each of them stays as it is. If the arrangement is a
            new one rather than better described, <a href="/set-ups">describe a new set-up</a>, so that older captures keep what was true of
            them.
          </p>
        </div>
      </header>
      <RefusalSummary refusals={form.refusals} labels={SET_UP_LABELS} />
      <SavedMeanwhile differences={savedMeanwhile} labels={SET_UP_LABELS} />
      <div class="beside">
        <form class="card" method="post" action={`/set-ups/${setUp.id}`} novalidate>
          <input type="hidden" name="revision" value={form.typed.revision ?? ""} />
          <SetUpFields form={form} />
          <p class="actions">
            <button class="button" type="submit">
              Save the changes
            </button>
            <a href={`/set-ups#set-up-${setUp.id}`}>Leave without saving</a>
          </p>
        </form>
        <section class="card" aria-labelledby="history-title">
          <h2 id="history-title">History</h2>
          <History events={history} />
        </section>
      </div>
    </div>
  </Layout>
);
