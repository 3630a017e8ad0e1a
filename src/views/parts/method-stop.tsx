import { insteadInWords, type MethodStop, wayInWords, withArticle } from "#domain/condition/method-stop.ts";
import { LEVEL_WORDS } from "./cautions.tsx";
import { type FormState, LongField } from "./field.tsx";

/** Keeps a method from a print until a person says why it was used all the same. Stands inside the form that is sent again. */
export const StopFields = (props: { stop: MethodStop; objectNumber: string; form: FormState; id?: string }) => {
  const { caution } = props.stop;
  return (
    <div class="notice notice-danger method-stop" role="alert" tabindex={-1} autofocus>
      <h2>
        Stop: {props.objectNumber} must not meet {wayInWords(props.stop)}
      </h2>
      <p>
        <strong>
          {LEVEL_WORDS[caution.level]}: {caution.title}.
        </strong>{" "}
        {caution.text}
      </p>
      <p>
        {caution.cause} {insteadInWords(props.stop)}
      </p>
      <p class="small">
        {caution.defer} Source: {caution.source}.
      </p>
      <LongField
        form={props.form}
        id={props.id}
        name="despite"
        label="Used all the same, because"
        hint="Kept in the history with your name and the time."
        rows={2}
        most={2000}
        isRequired
      />
    </div>
  );
};

/** The methods a print is kept from, each with the caution that says so. */
export const KeptFrom = ({ stops }: { stops: readonly MethodStop[] }) => (
  <>
    {[...new Set(stops.map(({ caution }) => caution.title))].map((title) => (
      <span class="kept-from">
        {notWith(stops.filter(({ caution }) => caution.title === title))}: {title}.
      </span>
    ))}
  </>
);

/** Empty where no method is forbidden. */
export const notWith = (stops: readonly MethodStop[]): string =>
  stops.length === 0 ? "" : `Not with ${stops.map(({ method }) => withArticle(method)).join(" or ")}`;
