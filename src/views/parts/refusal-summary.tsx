import type { Refusal } from "#domain/outcome.ts";
import { fieldId } from "./field.tsx";

/**
 * Stands at the top of a form that was not saved: every refusal with a link to its field.
 * @param labels the words a field is called by on the form, in the order of the form
 * @param title where "not saved" would not be true
 * @param idOf of a field, where its name stands on the page more than once
 */
export function RefusalSummary(props: {
  refusals: readonly Refusal[];
  labels: Readonly<Record<string, string>>;
  title?: string;
  idOf?: (name: string) => string;
}) {
  if (props.refusals.length === 0) return null;
  const order = ["", ...Object.keys(props.labels)];
  const inOrder = props.refusals.toSorted((a, b) => order.indexOf(a.about ?? "") - order.indexOf(b.about ?? ""));
  return (
    <section class="notice notice-danger" role="alert" aria-labelledby="refusal-summary" tabindex={-1} autofocus>
      <h2 id="refusal-summary">{props.title ?? "Not saved yet. Everything you typed is still here."}</h2>
      <ul>
        {inOrder.map((refusal) => {
          const label = refusal.about === null ? undefined : props.labels[refusal.about];
          return (
            <li>
              {label ? (
                <>
                  <a href={`#${(props.idOf ?? fieldId)(refusal.about ?? "")}`}>{label}</a>:{" "}
                </>
              ) : null}
              {refusal.happened} {refusal.remedy}
            </li>
          );
        })}
      </ul>
    </section>
  );
}
