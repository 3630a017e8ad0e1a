import { PLACE_KINDS, type PlaceKind } from "#domain/storage/place.ts";
import { flatten, type PlaceNode } from "#domain/storage/place-tree.ts";
import { counted } from "../format/counted.ts";
import { ChoiceField, type FormState, TextField } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";
import { DoneNotice } from "../parts/notice.tsx";
import { placeChoices } from "../parts/print-choices.ts";
import { RefusalSummary } from "../parts/refusal-summary.tsx";

export type PlacesPageProps = {
  collectionName: string;
  tree: readonly PlaceNode[];
  form: FormState;
  /** the place being renamed, with what was typed */
  renaming?: { readonly id: number; readonly form: FormState };
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
      </header>
      <DoneNotice done={props.done} />
      <div class="beside">
        <section class="card" aria-label="All places">
          {props.tree.length === 0 ? (
            <p>No place has been entered yet. Begin with the outermost: a room, or the cabinet everything stands in.</p>
          ) : (
            <PlaceList nodes={props.tree} renaming={props.renaming} />
          )}
        </section>
        <NewPlace form={props.form} places={flatten(props.tree)} />
      </div>
    </div>
  </Layout>
);

export const KIND_LABELS: Readonly<Record<PlaceKind, string>> = {
  building: "Building",
  room: "Room",
  cabinet: "Cabinet",
  shelf: "Shelf",
  drawer: "Drawer",
  box: "Box",
  album: "Album",
  folder: "Folder",
  sleeve: "Sleeve",
};

const PLACE_LABELS: Readonly<Record<string, string>> = { name: "Name", kind: "Kind", parentId: "Inside", newName: "New name" };

const PlaceList = ({ nodes, renaming }: { nodes: readonly PlaceNode[]; renaming: PlacesPageProps["renaming"] }) => (
  <ul class="place-tree">
    {nodes.map((node) => (
      <li id={`place-${node.id}`}>
        <div class="place-line">
          <span class="place-name">{node.name}</span>
          <span class="place-kind">{KIND_LABELS[node.kind]}</span>
          {node.printCountInside === 0 ? (
            <span class="place-count soft">empty</span>
          ) : (
            <a class="place-count" href={`/prints?place=${node.id}`}>
              {counted(node.printCountInside, "print", "prints")}
            </a>
          )}
          <Rename node={node} renaming={renaming?.id === node.id ? renaming.form : null} />
        </div>
        {node.children.length > 0 ? <PlaceList nodes={node.children} renaming={renaming} /> : null}
      </li>
    ))}
  </ul>
);

function Rename({ node, renaming }: { node: PlaceNode; renaming: FormState | null }) {
  const form = renaming ?? { typed: { newName: node.name }, refusals: [] };
  return (
    <details class="place-rename" open={renaming !== null}>
      <summary>
        Rename<span class="visually-hidden"> {node.name}</span>
      </summary>
      <form method="post" action={`/places/${node.id}`}>
        <TextField form={form} name="newName" id={`rename-${node.id}`} label={`New name of ${node.name}`} isRequired most={120} />
        <button class="button button-quiet" type="submit">
          Rename
        </button>
      </form>
    </details>
  );
}

const NewPlace = ({ form, places }: { form: FormState; places: readonly PlaceNode[] }) => (
  <form class="card new-place" method="post" action="/places" novalidate>
    <h2>New place</h2>
    <RefusalSummary refusals={form.refusals} labels={PLACE_LABELS} />
    <ChoiceField form={form} name="kind" label="Kind" choices={PLACE_KINDS.map((kind) => ({ value: kind, label: KIND_LABELS[kind] }))} />
    <TextField form={form} name="name" label="Name" isRequired most={120} hint="As it is written on it: Box 4, Blue album" />
    <ChoiceField form={form} name="parentId" label="Inside" none="Nothing: it is outermost" choices={placeChoices(places)} />
    <button class="button" type="submit">
      Add the place
    </button>
  </form>
);
