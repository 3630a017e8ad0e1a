import { ENCLOSURE_KINDS, ENCLOSURE_MATERIALS } from "#domain/storage/enclosure.ts";
import { PLACE_KINDS, type Place, type PlaceKind } from "#domain/storage/place.ts";
import type { PlaceNode } from "#domain/storage/place-tree.ts";
import { ChoiceField, type FormState, LongField, TextField, type Typed } from "./field.tsx";
import { placeChoices } from "./print-choices.ts";

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

/** What each field of a place is called, wherever it is named. */
export const PLACE_LABELS: Readonly<Record<string, string>> = {
  kind: "Kind",
  name: "Name",
  parentId: "Inside",
  enclosureKind: "Enclosure of the prints in it",
  enclosureMaterial: "Material of the enclosure",
  note: "Note",
};

/** Every field of a place. */
export const PlaceFields = ({ form, places }: { form: FormState; places: readonly PlaceNode[] }) => (
  <>
    <ChoiceField form={form} name="kind" label="Kind" choices={PLACE_KINDS.map((kind) => ({ value: kind, label: KIND_LABELS[kind] }))} />
    <TextField form={form} name="name" label="Name" isRequired most={120} hint="As it is written on it: Box 4, Blue album" />
    <ChoiceField form={form} name="parentId" label="Inside" none="Nothing: it is outermost" choices={placeChoices(places)} />
    <ChoiceField
      form={form}
      name="enclosureKind"
      label={PLACE_LABELS.enclosureKind ?? ""}
      none="Not said"
      choices={ENCLOSURE_KINDS.map((kind) => ({ value: kind.id, label: kind.name }))}
    />
    <ChoiceField
      form={form}
      name="enclosureMaterial"
      label={PLACE_LABELS.enclosureMaterial ?? ""}
      none="Not known"
      choices={ENCLOSURE_MATERIALS.map((material) => ({ value: material.id, label: material.name }))}
    />
    <LongField
      form={form}
      name="note"
      label="Note"
      rows={3}
      most={2000}
      hint="Supplier and batch, and when it passed the photographic activity test (ISO 18916); climate, keys, who to ask"
    />
  </>
);

/** A place as its form shows it, with the revision it was read at. */
export function typedFromPlace(place: Place): Typed {
  const fields = Object.entries(place).filter(([name]) => name in PLACE_LABELS || name === "revision");
  return Object.fromEntries(fields.map(([name, value]) => [name, value === null ? "" : String(value)]));
}
