import { SIDES, type Side } from "#domain/capture/capture.ts";
import { METHOD_LABELS, METHODS } from "#domain/capture/method.ts";
import type { SetUp } from "#domain/capture/set-up.ts";
import { type Choice, ChoiceField, type FormState, TextField } from "./field.tsx";

/** The list that every number field of a page offers its choices from. */
const NUMBERS = "object-numbers";

/** More than this and the list costs more to send than it helps. */
const MOST_OFFERED = 500;

export const SIDE_LABELS: Readonly<Record<Side, string>> = { front: "Front", back: "Back" };

type Props = { form: FormState; id?: string };

/** A print named by its object number. */
export const PrintNumberField = (props: Props & { name?: string; label?: string; hint?: string; isRequired?: boolean }) => (
  <TextField
    form={props.form}
    id={props.id}
    name={props.name ?? "print"}
    label={props.label ?? "Object number of the print"}
    hint={props.hint}
    isRequired={props.isRequired}
    listId={NUMBERS}
    most={100}
  />
);

/** Offers the collection's numbers while somebody types; one list serves all fields of a page. */
export const PrintNumbers = ({ numbers }: { numbers: readonly string[] }) =>
  numbers.length > MOST_OFFERED ? null : (
    <datalist id={NUMBERS}>
      {numbers.map((number) => (
        <option value={number} />
      ))}
    </datalist>
  );

export const SideField = ({ form, id, none }: Props & { none?: string }) => (
  <ChoiceField
    form={form}
    id={id}
    name="side"
    label="Side shown"
    none={none}
    choices={SIDES.map((side) => ({ value: side, label: SIDE_LABELS[side] }))}
  />
);

export const MethodField = ({ form, id, none }: Props & { none: string }) => (
  <ChoiceField form={form} id={id} name="method" label="Method" none={none} choices={methodChoices()} />
);

export const SetUpField = ({ form, id, setUps }: Props & { setUps: readonly SetUp[] }) => (
  <ChoiceField
    form={form}
    id={id}
    name="setUp"
    label="Set-up"
    none="None named"
    choices={setUps.map((setUp) => ({ value: String(setUp.id), label: `${setUp.name} (${METHOD_LABELS[setUp.method].toLowerCase()})` }))}
    hint={
      <>
        Device, light and glass, described once. <a href="/set-ups">Set-ups</a>
      </>
    }
  />
);

export const methodChoices = (): Choice[] => METHODS.map((method) => ({ value: method, label: METHOD_LABELS[method] }));
