import type { MethodStop } from "#domain/condition/method-stop.ts";
import { counted } from "../format/counted.ts";
import type { FormState } from "./field.tsx";
import { StopFields } from "./method-stop.tsx";

/** Captures of one print that were taken in without their method, because a caution forbids it. */
export type TakeInStop = {
  readonly stop: MethodStop;
  readonly print: { readonly id: number; readonly objectNumber: string };
  readonly captures: readonly { readonly id: number; readonly name: string }[];
  /** the set-up that was named with the method; empty for none */
  readonly setUp: string;
  readonly form: FormState;
};

/** The files are here already: only the method waits for a reason. */
export const TakeInStops = ({ stops }: { stops: readonly TakeInStop[] }) => (
  <>
    {stops.map(({ stop, print, captures, setUp, form }) => (
      <form class="card" method="post" action="/add/despite">
        <StopFields stop={stop} objectNumber={print.objectNumber} form={form} id={`despite-${print.id}`} />
        <p>
          {counted(captures.length, "capture is", "captures are")} here and safe, without a method: {namesOf(captures)}. Without a reason
          they stay so, with <a href={`/prints/${print.id}`}>{print.objectNumber}</a>.
        </p>
        <input type="hidden" name="captures" value={idsOf(captures)} />
        <input type="hidden" name="waiting" value={idsOf(stops.flatMap((other) => (other.print.id === print.id ? [] : other.captures)))} />
        <input type="hidden" name="method" value={stop.method} />
        <input type="hidden" name="setUp" value={setUp} />
        <p class="actions">
          <button class="button" type="submit">
            Record the method with this reason
          </button>
        </p>
      </form>
    ))}
  </>
);

const idsOf = (captures: TakeInStop["captures"]): string => captures.map(({ id }) => id).join(",");

const MOST_NAMED = 5;

const namesOf = (captures: TakeInStop["captures"]): string => {
  const named = captures.slice(0, MOST_NAMED).map(({ name }) => name);
  return `${named.join(", ")}${captures.length > named.length ? ` and ${captures.length - named.length} more` : ""}`;
};
