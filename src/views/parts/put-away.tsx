import { type FormState, LongField } from "./field.tsx";
import { Moment } from "./moment.tsx";
import { Notice } from "./notice.tsx";
import { Refusals } from "./refusals.tsx";

/** What is told of a capture that was put away. */
export type ShownPutAway = { readonly captureId: number; readonly at: string; readonly who: string | null; readonly reason: string };

/** Stands at the top of the capture's page, with the way back. */
export const IsPutAway = ({ putAway }: { putAway: ShownPutAway }) => (
  <Notice level="notice">
    <p>
      Put away <Moment at={putAway.at} /> by {putAway.who ?? "nobody named"}: {putAway.reason}
    </p>
    <p>It counts nowhere. Its file and what was read from it are kept.</p>
    <TakeBack captureId={putAway.captureId} />
  </Notice>
);

export const TakeBack = ({ captureId, name }: { captureId: number; name?: string }) => (
  <form method="post" action={`/captures/${captureId}/take-back`}>
    <button class="button button-quiet button-small" type="submit">
      Take back{name === undefined ? null : <span class="visually-hidden"> {name}</span>}
    </button>
  </form>
);

/** Shut until it is wanted: a capture is put away once in a long while. */
export const PutAwayForm = ({ captureId, form }: { captureId: number; form: FormState }) => (
  <details class="card" id="put-away" open={form.refusals.length > 0}>
    <summary>Put this capture away</summary>
    <form class="stack" method="post" action={`/captures/${captureId}/put-away`} novalidate>
      <p>
        For a file that was taken in by mistake. It leaves choices, lists and comparisons, and its print is judged without it. The file
        itself is never deleted, and you can take the capture back from its page or from the bin.
      </p>
      <Refusals refusals={form.refusals.filter(({ about }) => about !== "reason")} />
      <LongField form={form} name="reason" id="put-away-reason" label="Why it is put away" rows={2} most={2000} isRequired />
      <p class="actions">
        <button class="button button-quiet" type="submit">
          Put it away
        </button>
      </p>
    </form>
  </details>
);
