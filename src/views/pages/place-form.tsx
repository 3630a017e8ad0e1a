import { findEnclosureKind, findEnclosureMaterial } from "#domain/storage/enclosure.ts";
import { PLACE_KINDS } from "#domain/storage/place.ts";
import { type PlaceNode, pathInWords } from "#domain/storage/place-tree.ts";
import type { FormState } from "../parts/field.tsx";
import { History, type ShownEvent } from "../parts/history.tsx";
import { Layout } from "../parts/layout.tsx";
import { KIND_LABELS, PLACE_LABELS, PlaceFields } from "../parts/place-fields.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";
import { type Difference, SavedMeanwhile } from "../parts/saved-meanwhile.tsx";

export type PlaceFormPageProps = {
  collectionName: string;
  place: { readonly id: number; readonly name: string };
  /** the places it can stand in */
  places: readonly PlaceNode[];
  form: FormState;
  savedMeanwhile: readonly Difference[];
  /** what is in it and keeps it from being taken away, in words; null: it is empty */
  keeps: string | null;
  history: readonly ShownEvent[];
};

/** Change what is said of a place. */
export const PlaceFormPage = ({ collectionName, place, places, form, savedMeanwhile, keeps, history }: PlaceFormPageProps) => (
  <Layout title={`Edit ${place.name}`} section="places" collectionName={collectionName}>
    <div class="page">
      <header class="page-head">
        <div>
          <h1>Edit place</h1>
          <p>Prints and places that are in {place.name} stay in it, wherever it stands.</p>
        </div>
      </header>
      <RefusalSummary refusals={form.refusals} labels={PLACE_LABELS} />
      <SavedMeanwhile
        differences={savedMeanwhile}
        labels={PLACE_LABELS}
        inWords={(name, value) => placeValueInWords(name, value, places)}
      />
      <div class="beside">
        <form class="card" method="post" action={`/places/${place.id}`} novalidate>
          <input type="hidden" name="revision" value={form.typed.revision ?? ""} />
          <PlaceFields form={form} places={places} />
          <p class="actions">
            <button class="button" type="submit">
              Save the changes
            </button>
            <a href={`/places#place-${place.id}`}>Leave without saving</a>
          </p>
        </form>
        <div class="stacked-cards">
          <section class="card" aria-labelledby="delete-title">
            <h2 id="delete-title">Take the place away</h2>
            {keeps === null ? (
              <form method="post" action={`/places/${place.id}/delete`}>
                <p>It is empty: no print, no other place and no climate reading is in it.</p>
                <button class="button button-quiet" type="submit">
                  Delete {place.name}
                </button>
              </form>
            ) : (
              <p>A place can be deleted when it is empty. In it there {keeps}.</p>
            )}
          </section>
          <section class="card" aria-labelledby="history-title">
            <h2 id="history-title">History</h2>
            <History events={history} places={new Map(places.map((each) => [each.id, pathInWords(each.path)]))} />
          </section>
        </div>
      </div>
    </div>
  </Layout>
);

function placeValueInWords(name: string, value: string, places: readonly PlaceNode[]): string {
  if (name === "enclosureKind") return findEnclosureKind(value)?.name ?? value;
  if (name === "enclosureMaterial") return findEnclosureMaterial(value)?.name ?? value;
  const kind = name === "kind" ? PLACE_KINDS.find((each) => each === value) : undefined;
  const parent = name === "parentId" ? places.find((each) => String(each.id) === value) : undefined;
  return kind ? KIND_LABELS[kind] : parent ? pathInWords(parent.path) : value;
}
