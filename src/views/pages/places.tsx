import { findEnclosureKind, findEnclosureMaterial } from "#domain/storage/enclosure.ts";
import { flatten, type PlaceNode } from "#domain/storage/place-tree.ts";
import { counted } from "../format/counted.ts";
import type { FormState } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";
import { DoneNotice } from "../parts/notice.tsx";
import { KIND_LABELS, PLACE_LABELS, PlaceFields } from "../parts/place-fields.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";

export type PlacesPageProps = {
  collectionName: string;
  tree: readonly PlaceNode[];
  form: FormState;
  done?: string;
};

/** Where prints are kept: the tree, each place with its prints, and a form for one more. */
export const PlacesPage = (props: PlacesPageProps) => (
  <Layout title="Places" section="places" collectionName={props.collectionName}>
    <div class="page">
      <header class="page-head">
        <div>
          <h1>Places</h1>
          <p>Where prints are kept, from the room down to the sleeve.</p>
        </div>
        <p class="actions">
          <a class="button button-quiet" href="/care">
            Care first
          </a>
          <a class="button button-quiet" href="/displays">
            Display log
          </a>
        </p>
      </header>
      <DoneNotice done={props.done} />
      <div class="beside">
        <section class="card" aria-label="All places">
          {props.tree.length === 0 ? (
            <p>No place has been entered yet. Begin with the outermost: a room, or the cabinet everything stands in.</p>
          ) : (
            <PlaceList nodes={props.tree} />
          )}
        </section>
        <NewPlace form={props.form} places={flatten(props.tree)} />
      </div>
    </div>
  </Layout>
);

const PlaceList = ({ nodes }: { nodes: readonly PlaceNode[] }) => (
  <ul class="place-tree">
    {nodes.map((node) => (
      <li id={`place-${node.id}`}>
        <div class="place-line">
          <span class="place-name">{node.name}</span>
          <span class="place-kind">{KIND_LABELS[node.kind]}</span>
          <span class="place-links">
            {node.printCountInside === 0 ? (
              <span class="soft">empty</span>
            ) : (
              <a href={`/prints?place=${node.id}`}>{counted(node.printCountInside, "print", "prints")}</a>
            )}
            <a href={`/places/${node.id}/climate`}>
              Climate<span class="visually-hidden"> of {node.name}</span>
            </a>
            {node.printCountInside > 0 ? (
              <a href={`/due?place=${node.id}`}>
                Condition<span class="visually-hidden"> in {node.name}</span>
              </a>
            ) : null}
            {node.printCountInside > 0 ? (
              <a href={`/labels?place=${node.id}`}>
                Labels<span class="visually-hidden"> for {node.name}</span>
              </a>
            ) : null}
            <a href={`/places/${node.id}/edit`}>
              Edit<span class="visually-hidden"> {node.name}</span>
            </a>
          </span>
          <Enclosure node={node} />
        </div>
        {node.children.length > 0 ? <PlaceList nodes={node.children} /> : null}
      </li>
    ))}
  </ul>
);

/** What its prints lie in, with what to mind of the material, and the note. */
function Enclosure({ node }: { node: PlaceNode }) {
  const kind = findEnclosureKind(node.enclosureKind ?? "");
  const material = findEnclosureMaterial(node.enclosureMaterial ?? "");
  if (!kind && !material && node.note === null) return null;
  return (
    <div class="place-enclosure">
      {kind || material ? <p>{[kind?.name, material?.name].filter((name) => name !== undefined).join(", ")}</p> : null}
      {material && material.note !== "" ? (
        <p>
          {material.note} <span class="soft">({material.source})</span>
        </p>
      ) : null}
      {node.note === null ? null : <p class="as-typed">{node.note}</p>}
    </div>
  );
}

const NewPlace = ({ form, places }: { form: FormState; places: readonly PlaceNode[] }) => (
  <form class="card new-place" id="new-place" method="post" action="/places" novalidate>
    <h2>New place</h2>
    <RefusalSummary refusals={form.refusals} labels={PLACE_LABELS} />
    <PlaceFields form={form} places={places} />
    <button class="button" type="submit">
      Add the place
    </button>
  </form>
);
