import type { Round, RoundCounts } from "#domain/condition/round.ts";
import { CONFIDENCES, SAMPLE_SIZE_SOURCE, sampleSize } from "#domain/condition/sampling.ts";
import { counted } from "../format/counted.ts";
import { ChoiceField, type FormState, NOTHING_TYPED, TextField } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";

export type RoundsPageProps = {
  collectionName: string;
  rounds: readonly (Round & RoundCounts)[];
  places: readonly { readonly id: number; readonly name: string; readonly prints: number }[];
  /** prints of the collection */
  population: number;
  form: FormState;
};

const LABELS = {
  placeId: "Place",
  name: "Name",
  marginPercent: "How far the share may be off",
  confidencePercent: "How sure it must be",
  expectedPercent: "Share that you expect",
  seed: "Seed",
};

/** Many prints one after another: a place whole, or a sample of what is too much to look at whole. */
export function RoundsPage({ collectionName, rounds, places, population, form }: RoundsPageProps) {
  const placeForm = form.typed.kind === "sample" ? NOTHING_TYPED : form;
  const sampleForm = form.typed.kind === "sample" ? form : NOTHING_TYPED;
  const filled = places.filter(({ prints }) => prints > 0);
  return (
    <Layout title="Look at many prints" section="condition" collectionName={collectionName}>
      <div class="page">
        <header class="page-head">
          <div>
            <h1>Look at many prints</h1>
            <p>One print after another, by keyboard alone. What was begun can be left and taken up again at any time.</p>
          </div>
        </header>
        <RefusalSummary refusals={form.refusals} labels={LABELS} />
        {rounds.length > 0 ? (
          <section class="card" aria-labelledby="begun-title">
            <h2 id="begun-title">Begun</h2>
            <ul class="rounds">
              {rounds.map((round) => (
                <li>
                  <a href={`/rounds/${round.id}`}>{round.name}</a>{" "}
                  <span class="soft">
                    {round.sample ? "sample, " : ""}
                    {round.looked >= round.all ? `all ${round.all} looked at` : `${round.looked} of ${round.all} looked at`}
                  </span>
                </li>
              ))}
            </ul>
          </section>
        ) : null}
        <div class="round-starts">
          <form class="card stack" method="post" action="/rounds" novalidate>
            <h2>A place, whole</h2>
            {filled.length === 0 ? (
              <p>No place has prints in it yet.</p>
            ) : (
              <>
                <input type="hidden" name="kind" value="place" />
                <ChoiceField
                  form={placeForm}
                  name="placeId"
                  id="whole-place"
                  label={LABELS.placeId}
                  none="Choose"
                  choices={filled.map(({ id, name, prints }) => ({
                    value: String(id),
                    label: `${name} (${counted(prints, "print", "prints")})`,
                  }))}
                />
                <p class="actions">
                  <button class="button" type="submit">
                    Begin, or go on
                  </button>
                </p>
              </>
            )}
          </form>
          <form class="card stack" method="post" action="/rounds" novalidate>
            <h2>A sample</h2>
            <p>
              Where there is too much to look at whole, a sample drawn by chance tells how many prints of all are damaged. For the whole
              collection ({counted(population, "print", "prints")}), to within 5 points at 95 %, {sizeInWords(population)} are drawn.
            </p>
            <input type="hidden" name="kind" value="sample" />
            <div class="field-grid">
              <ChoiceField
                form={sampleForm}
                name="placeId"
                id="sample-place"
                label={LABELS.placeId}
                none="The whole collection"
                choices={filled.map(({ id, name, prints }) => ({ value: String(id), label: `${name} (${prints})` }))}
              />
              <TextField form={sampleForm} name="name" label={LABELS.name} hint="Left empty: by what it is drawn from." most={120} />
              <TextField
                form={sampleForm}
                name="marginPercent"
                label={LABELS.marginPercent}
                unit="points"
                inputMode="decimal"
                hint="Empty: 5."
              />
              <ChoiceField
                form={sampleForm}
                name="confidencePercent"
                label={LABELS.confidencePercent}
                none="95 %"
                choices={CONFIDENCES.filter((each) => each !== 95).map((each) => ({ value: String(each), label: `${each} %` }))}
              />
              <TextField
                form={sampleForm}
                name="expectedPercent"
                label={LABELS.expectedPercent}
                unit="%"
                inputMode="decimal"
                hint="Empty: 50, which asks for the most prints and is safe."
              />
              <TextField
                form={sampleForm}
                name="seed"
                label={LABELS.seed}
                inputMode="numeric"
                hint="Empty: one is drawn and kept. The same seed draws the same prints again."
              />
            </div>
            <p class="actions">
              <button class="button" type="submit">
                Draw the sample
              </button>
            </p>
            <p class="small soft">How many: {SAMPLE_SIZE_SOURCE}.</p>
          </form>
        </div>
      </div>
    </Layout>
  );
}

const sizeInWords = (population: number): string =>
  population === 0 ? "none" : String(sampleSize({ population, marginPercent: 5, confidencePercent: 95, expectedPercent: 50 }));
