import type { Child } from "hono/jsx";
import type { Refusal } from "#domain/outcome.ts";

/** What a form shows in its fields: the text as typed, by field name. */
export type Typed = Readonly<Record<string, string>>;

export type Choice = { readonly value: string; readonly label: string };
export type ChoiceGroup = { readonly label: string; readonly choices: readonly Choice[] };

/** One form's text and refusals, from which each field takes its own. */
export type FormState = { readonly typed: Typed; readonly refusals: readonly Refusal[] };

/** A form before anybody wrote in it. */
export const NOTHING_TYPED: FormState = { typed: {}, refusals: [] };

type FieldProps = {
  form: FormState;
  name: string;
  label: string;
  hint?: Child;
  isRequired?: boolean;
  /** where several forms of a page have a field of this name */
  id?: string;
  /** wide takes the whole row, narrow fits a number or a code */
  width?: "wide" | "narrow";
};

/** The id that the summary of refusals links to. */
export const fieldId = (name: string): string => `field-${name}`;

export function TextField(
  props: FieldProps & {
    type?: "text" | "search" | "date";
    inputMode?: "text" | "decimal" | "numeric";
    unit?: string;
    most?: number;
    listId?: string;
  },
) {
  return (
    <Field {...props}>
      <span class={props.unit ? "with-unit" : undefined}>
        <input
          {...wiring(props)}
          type={props.type ?? "text"}
          value={props.form.typed[props.name] ?? ""}
          inputmode={props.inputMode}
          maxlength={props.most ?? 500}
          list={props.listId}
          autocomplete="off"
        />
        {props.unit ? <span class="unit">{props.unit}</span> : null}
      </span>
    </Field>
  );
}

export function LongField(props: FieldProps & { rows?: number; most?: number }) {
  return (
    <Field {...props}>
      <textarea {...wiring(props)} rows={props.rows ?? 3} maxlength={props.most ?? 20_000}>
        {props.form.typed[props.name] ?? ""}
      </textarea>
    </Field>
  );
}

/** A list to choose from. A value that is no longer in the list stays in it, so that saving does not lose it. */
export function ChoiceField(
  props: FieldProps & { none?: string; choices?: readonly Choice[]; groups?: readonly ChoiceGroup[]; asking?: Record<string, string> },
) {
  const chosen = props.form.typed[props.name] ?? "";
  const known = [...(props.choices ?? []), ...(props.groups ?? []).flatMap((group) => group.choices)];
  const isStrange = chosen !== "" && !known.some((choice) => choice.value === chosen);
  return (
    <Field {...props}>
      <select {...wiring(props)} {...props.asking}>
        {props.none === undefined ? null : <option value="">{props.none}</option>}
        {isStrange ? (
          <option value={chosen} selected>
            {chosen} (not in the list)
          </option>
        ) : null}
        {props.choices?.map((choice) => (
          <Option choice={choice} chosen={chosen} />
        ))}
        {props.groups?.map((group) => (
          <optgroup label={group.label}>
            {group.choices.map((choice) => (
              <Option choice={choice} chosen={chosen} />
            ))}
          </optgroup>
        ))}
      </select>
    </Field>
  );
}

function Field(props: FieldProps & { children?: Child }) {
  const refusals = refusalsOf(props);
  return (
    <div class={["field", props.width ? `field-${props.width}` : "", refusals.length > 0 ? "field-refused" : ""].filter(Boolean).join(" ")}>
      <label for={idOf(props)}>
        {props.label}
        {props.isRequired ? <span class="required"> (needed)</span> : null}
      </label>
      {refusals.length > 0 ? (
        <p class="field-refusal" id={`${idOf(props)}-refusal`}>
          {refusals.map((refusal) => `${refusal.happened} ${refusal.remedy}`.trim()).join(" ")}
        </p>
      ) : null}
      {props.children}
      {props.hint ? (
        <p class="hint" id={`${idOf(props)}-hint`}>
          {props.hint}
        </p>
      ) : null}
    </div>
  );
}

const Option = ({ choice, chosen }: { choice: Choice; chosen: string }) => (
  <option value={choice.value} selected={choice.value === chosen}>
    {choice.label}
  </option>
);

/** Name, id and what is said of the field to those who cannot see it. */
function wiring(props: FieldProps) {
  const id = idOf(props);
  const isRefused = refusalsOf(props).length > 0;
  const described = [...(isRefused ? [`${id}-refusal`] : []), ...(props.hint ? [`${id}-hint`] : [])];
  return {
    id,
    name: props.name,
    required: props.isRequired,
    "aria-invalid": isRefused ? ("true" as const) : undefined,
    "aria-describedby": described.length > 0 ? described.join(" ") : undefined,
  };
}

const idOf = (props: FieldProps): string => props.id ?? fieldId(props.name);

const refusalsOf = (props: FieldProps): readonly Refusal[] => props.form.refusals.filter((refusal) => refusal.about === props.name);
