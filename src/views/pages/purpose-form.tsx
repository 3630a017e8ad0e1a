import { AIM_LABELS, AimFields } from "../parts/aim-fields.tsx";
import type { FormState } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";
import { type ShownChanges, WouldChange } from "../parts/would-change.tsx";

export type PurposeFormPageProps = {
  collectionName: string;
  purpose: { readonly key: string; readonly name: string };
  form: FormState;
  /** null: nobody has asked yet, or what was typed cannot be read */
  changes: ShownChanges | null;
};

/** Change what a purpose asks, and see what that would change before it is saved. */
export const PurposeFormPage = ({ collectionName, purpose, form, changes }: PurposeFormPageProps) => (
  <Layout title={`Change ${purpose.name}`} section={null} collectionName={collectionName}>
    <div class="page">
      <header class="page-head">
        <div>
          <h1>Change what {purpose.name} asks</h1>
          <p>Saved as a new version; every earlier one stays readable, and masters are then chosen anew by this one.</p>
        </div>
      </header>
      <RefusalSummary refusals={form.refusals} labels={AIM_LABELS} />
      <form class="purpose-form" method="post" action={`/purposes/${purpose.key}`} novalidate {...followsTyping(purpose.key)}>
        <input type="hidden" name="version" value={form.typed.version ?? ""} />
        <div class="stack">
          <AimFields form={form} />
        </div>
        <div class="purpose-aside">
          <WouldChange changes={changes} unread={form.refusals.length > 0} />
          <p class="actions">
            <button class="button button-quiet" type="submit" name="act" value="look">
              See what would change
            </button>
            <button class="button" type="submit">
              Save as a new version
            </button>
            <a href={`/purposes/${purpose.key}`}>Leave without saving</a>
          </p>
        </div>
      </form>
    </div>
  </Layout>
);

/** The same address as the button asks, once a figure is typed, and of its answer only the part that tells. */
const followsTyping = (key: string) => ({
  "hx-post": `/purposes/${key}`,
  "hx-trigger": "input target:[inputmode=decimal] delay:700ms",
  "hx-vals": '{"act":"look"}',
  "hx-target": "#would-change",
  "hx-select": "#would-change",
  "hx-swap": "outerHTML",
  "hx-sync": "this:replace",
});
