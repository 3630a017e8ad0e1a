import { type FormState, LongField, NOTHING_TYPED } from "./field.tsx";
import { RefusalSummary } from "./refusal-summary.tsx";

const WHY = "Why it is good enough";

/** Takes a side from the list with a reason; shut until it is wanted. */
export function GoodEnough(props: { action: string; id: string; form: FormState | null; hidden?: Readonly<Record<string, string>> }) {
  const { action, id, form } = props;
  const refusals = form?.refusals ?? [];
  return (
    <details class="good-enough" open={refusals.length > 0}>
      <summary>Good enough, do not ask again</summary>
      <form class="stack" method="post" action={action} novalidate>
        {Object.entries(props.hidden ?? {}).map(([name, value]) => (
          <input type="hidden" name={name} value={value} />
        ))}
        {refusals
          .filter(({ about }) => about !== "reason")
          .map(({ happened, remedy }) => (
            <p class="field-refusal">
              {happened} {remedy}
            </p>
          ))}
        <LongField
          form={form ?? NOTHING_TYPED}
          name="reason"
          id={`${id}-reason`}
          label={WHY}
          rows={2}
          most={1000}
          hint="It is asked for again when the aim changes, when its best capture leaves it, or when you take this back, here or under Recapture."
        />
        <p class="actions">
          <button class="button button-quiet" type="submit" name="step" value="good-enough">
            Do not ask again
          </button>
        </p>
      </form>
    </details>
  );
}

/** Stands at the top of a page of which one line was not taken; keeps the reason in sight where that line (null) is not there any more. */
export function GoodEnoughRefusal({ form, lineId }: { form: FormState | null; lineId: string | null }) {
  if (!form) return null;
  const reason = form.typed.reason?.trim() ?? "";
  return (
    <>
      <RefusalSummary
        refusals={form.refusals}
        labels={lineId === null ? {} : { reason: WHY }}
        idOf={(name) => `${lineId}-${name}`}
        title="This was not kept."
      />
      {lineId !== null || reason === "" ? null : <p class="notice">The reason that you wrote: “{reason}”</p>}
    </>
  );
}
