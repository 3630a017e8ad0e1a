import type { SetUp } from "#domain/capture/set-up.ts";
import { methodChoices } from "./capture-fields.tsx";
import { ChoiceField, type FormState, LongField, TextField, type Typed } from "./field.tsx";

/** What each field of a set-up is called, wherever it is named. */
export const SET_UP_LABELS: Readonly<Record<string, string>> = {
  name: "Name",
  method: "Method",
  device: "Device",
  lens: "Lens",
  light: "Light",
  glass: "Glass",
  settings: "Settings",
  priceAmount: "Price",
  priceCurrency: "Currency",
  note: "Note",
};

/** Every field of a set-up. */
export const SetUpFields = ({ form }: { form: FormState }) => (
  <>
    <TextField form={form} name="name" label="Name" isRequired most={120} hint="One you will know again: Copy stand by the window" />
    <ChoiceField form={form} name="method" label="Method" isRequired none="Choose one" choices={methodChoices()} />
    <TextField form={form} name="device" label="Device" most={200} />
    <TextField form={form} name="lens" label="Lens" most={200} />
    <LongField form={form} name="light" label="Light" rows={2} most={500} hint="Which lamps, from where, how far; polarisers" />
    <TextField form={form} name="glass" label="Glass" most={200} hint="None, or what lies between print and lens" />
    <LongField form={form} name="settings" label="Settings" rows={2} most={2000} />
    <TextField form={form} name="priceAmount" label="Price" inputMode="decimal" most={12} />
    <TextField form={form} name="priceCurrency" label="Currency" most={3} hint="Three letters, such as EUR" />
    <LongField form={form} name="note" label="Note" rows={2} most={2000} />
  </>
);

/** A set-up as its form shows it, with the revision it was read at. */
export function typedFromSetUp(setUp: SetUp): Typed {
  const fields = Object.entries(setUp).filter(([name]) => name in SET_UP_LABELS || name === "revision");
  return Object.fromEntries(fields.map(([name, value]) => [name, value === null ? "" : String(value)]));
}
