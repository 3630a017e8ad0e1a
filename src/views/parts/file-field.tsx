import { type FormState, fieldId } from "./field.tsx";

type Props = { form: FormState; name: string; label: string; accept: string; hint?: string; isRequired?: boolean };

/** One file of a form. A browser never fills it in again, so a refused form says that it is to be chosen anew. */
export function FileField({ form, name, label, accept, hint, isRequired }: Props) {
  const id = fieldId(name);
  const own = form.refusals.filter(({ about }) => about === name);
  const described = [own.length > 0 && `${id}-refusal`, hint && `${id}-hint`].filter(Boolean).join(" ");
  return (
    <div class={own.length > 0 ? "field field-refused" : "field"}>
      <label for={id}>
        {label}
        {isRequired ? <span class="required"> (needed)</span> : null}
      </label>
      {own.length > 0 ? (
        <p class="field-refusal" id={`${id}-refusal`}>
          {own.map(({ happened, remedy }) => `${happened} ${remedy}`).join(" ")}
        </p>
      ) : null}
      <input
        id={id}
        type="file"
        name={name}
        accept={accept}
        required={isRequired}
        aria-invalid={own.length > 0 ? "true" : undefined}
        aria-describedby={described || undefined}
      />
      {hint ? (
        <p class="hint" id={`${id}-hint`}>
          {hint}
        </p>
      ) : null}
    </div>
  );
}
