import { termInWords } from "#domain/condition/finding-in-words.ts";
import { type FindingPhotograph, MOST_PHOTOGRAPHS } from "#domain/condition/finding-photograph.ts";
import { dateInWords } from "#domain/print/date.ts";
import { type FormState, TextField } from "../parts/field.tsx";
import { Photograph } from "../parts/finding-photographs.tsx";
import { Layout } from "../parts/layout.tsx";
import { DoneNotice } from "../parts/notice.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";

export type PhotographsPageProps = {
  collectionName: string;
  print: { readonly id: number; readonly objectNumber: string; readonly title: string };
  finding: { readonly id: number; readonly term: string; readonly side: "front" | "back"; readonly surveyedOn: string };
  photographs: readonly FindingPhotograph[];
  form: FormState;
  /** how many of the files sent were kept; null where none were sent */
  kept: number | null;
  done?: string;
};

/** The photographs of one thing found: what there is, and a form for more. */
export const PhotographsPage = ({ collectionName, print, finding, photographs, form, kept, done }: PhotographsPageProps) => {
  const of = termInWords(finding);
  return (
    <Layout title={`Photographs of ${of}, ${print.objectNumber}`} section="prints" collectionName={collectionName}>
      <div class="page page-form">
        <header class="page-head">
          <div>
            <h1>Photographs of what was found</h1>
            <p>
              {of}, found on {dateInWords(finding.surveyedOn)} on{" "}
              <a href={`/prints/${print.id}#survey-title`}>
                <span class="object-number">{print.objectNumber}</span> {print.title}
              </a>
            </p>
          </div>
        </header>
        <DoneNotice done={done} />
        <RefusalSummary refusals={form.refusals} labels={{ caption: "What they show" }} title={whatBecame(kept)} />
        {photographs.length > 0 ? (
          <ul class="card finding-photographs">
            {photographs.map((photograph) => (
              <li>
                <Photograph photograph={photograph} of={of} />
                <form method="post" action={`/photographs/${photograph.id}/take-out`}>
                  <button class="button button-quiet" type="submit">
                    Take out<span class="visually-hidden"> {photograph.caption ?? photograph.name}</span>
                  </button>
                </form>
              </li>
            ))}
          </ul>
        ) : null}
        {photographs.length < MOST_PHOTOGRAPHS ? (
          <form class="card" method="post" action={`/findings/${finding.id}/photographs`} enctype="multipart/form-data">
            {/* the words stand before the files, so that they are known when the first file arrives */}
            <TextField
              form={form}
              name="caption"
              label="What they show"
              most={500}
              hint="For example: crack at the lower edge, raking light."
            />
            <div class="field">
              <label for="field-files">Photographs</label>
              <input id="field-files" name="files" type="file" accept="image/*" multiple required aria-describedby="files-hint" />
              <p class="hint" id="files-hint">
                Up to {MOST_PHOTOGRAPHS} of one finding. They are kept exactly as they come, checked with every other file, and never
                measured. A phone offers its camera.
              </p>
            </div>
            <p class="actions">
              <button class="button" type="submit">
                Add photographs
              </button>
              <a href={`/prints/${print.id}#survey-title`}>Back to the print</a>
            </p>
          </form>
        ) : null}
      </div>
    </Layout>
  );
};

const whatBecame = (kept: number | null): string =>
  kept
    ? "Some were kept, and stand below; these were not."
    : "No photograph was kept. What you typed is still here; choose the files again.";
