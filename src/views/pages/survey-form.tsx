import type { Caution } from "#domain/condition/cautions-for.ts";
import type { DatedFinding } from "#domain/condition/finding.ts";
import type { FindingPhotograph } from "#domain/condition/finding-photograph.ts";
import { GRADE_MEANINGS, GRADE_SOURCE, GRADE_WORDS, GRADES, type ProposedGrade } from "#domain/condition/grade.ts";
import type { Survey } from "#domain/condition/survey.ts";
import type { Term } from "#domain/condition/term.ts";
import { dateInWords } from "#domain/print/date.ts";
import { Cautions } from "../parts/cautions.tsx";
import { draft } from "../parts/draft.ts";
import { ChoiceField, type FormState, LongField, TextField } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";
import { MarkedSide, type ShownSidePicture } from "../parts/marked-side.tsx";
import { Notice } from "../parts/notice.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";
import { FoundFields, LookedAtBy, RejudgedFields, surveyLabels } from "../parts/survey-fields.tsx";
import { TermNames } from "../parts/term-choice.tsx";
import { TermDefinitions } from "../parts/term-definitions.tsx";

export type SurveyFormPageProps = {
  collectionName: string;
  print: { readonly id: number; readonly uuid: string; readonly objectNumber: string; readonly title: string };
  processName: string;
  cautions: readonly Caution[];
  /** what was found before and had not gone */
  standing: readonly DatedFinding[];
  lastSurvey: Survey | null;
  /** the terms that can befall the process, or all where they were asked for */
  terms: readonly Term[];
  showsEveryTerm: boolean;
  rowCount: number;
  pictures: readonly ShownSidePicture[];
  /** by the finding that stands, from every look at it */
  photographs: ReadonlyMap<number, readonly FindingPhotograph[]>;
  form: FormState;
  /** the form was sent and comes back */
  isAnswer: boolean;
  /** what would be proposed from what is typed so far; null: not asked yet, or not whole enough */
  proposed: ProposedGrade | null;
};

/** One look at a print: what was found before is judged again, what is new is added, and the whole gets a grade. */
export function SurveyFormPage(props: SurveyFormPageProps) {
  const { print, form, standing, lastSurvey, terms, rowCount } = props;
  const address = `/prints/${print.id}/survey`;
  const action = props.showsEveryTerm ? `${address}?terms=all` : address;
  return (
    <Layout
      title={`Condition of ${print.objectNumber}`}
      section="prints"
      collectionName={props.collectionName}
      scripts={["mark-regions.js", "term-meaning.js", "draft.js"]}
    >
      <div class="page page-form">
        <header class="page-head">
          <div>
            <h1>Look at its condition</h1>
            <p>
              <span class="object-number">{print.objectNumber}</span> {print.title === "" ? "Untitled" : print.title}
            </p>
          </div>
        </header>
        <RefusalSummary refusals={form.refusals} labels={surveyLabels(standing, rowCount)} />
        <Cautions cautions={props.cautions} printId={print.id} />
        <Pictures {...props} />
        <form
          class="record"
          method="post"
          action={action}
          novalidate
          {...draft(`survey ${print.uuid}`, lastSurvey?.id ?? 0, props.isAnswer)}
        >
          {standing.length > 0 ? (
            <fieldset class="record-group">
              <legend>Found before</legend>
              {standing.map((finding, index) => (
                <RejudgedFields form={form} finding={finding} index={index} photographs={props.photographs.get(finding.id) ?? []} />
              ))}
            </fieldset>
          ) : null}
          <fieldset class="record-group">
            <legend>New</legend>
            <p class="record-note">
              {props.showsEveryTerm
                ? "The list holds every term there is."
                : `The list holds the ${terms.length} terms that can befall this process (${props.processName}).`}
            </p>
            <TermNames terms={terms} />
            {Array.from({ length: rowCount }, (_, index) => (
              <FoundFields form={form} index={index} />
            ))}
            <p class="record-note">A photograph of what is new is added from here, or from the print's page, once this look is saved.</p>
            {/* the first button of the form is the one that Enter in a field presses: it keeps nothing and loses nothing */}
            <p class="actions" id="more">
              <button class="button button-quiet" type="submit" name="step" value="more" formaction={`${action}#more`}>
                More rows, and the grade for what is written so far
              </button>
              <button
                class="button button-quiet"
                type="submit"
                name="step"
                value="terms"
                formaction={props.showsEveryTerm ? address : `${address}?terms=all`}
              >
                {props.showsEveryTerm ? "Offer only the terms of its process" : "Offer every term"}
              </button>
            </p>
          </fieldset>
          <fieldset class="record-group">
            <legend>The whole</legend>
            {props.proposed ? (
              <Notice level="notice">
                <p>
                  Proposed from what is written so far: {GRADE_WORDS[props.proposed.grade]}, because {props.proposed.because}.
                </p>
              </Notice>
            ) : null}
            <div class="field-grid">
              <ChoiceField
                form={form}
                name="grade"
                label="Grade"
                none="As proposed from the findings"
                choices={GRADES.map((grade) => ({ value: grade, label: `${GRADE_WORDS[grade]}: ${GRADE_MEANINGS[grade]}` }))}
                hint={`Proposed: severe and active is unacceptable; severe, or marked and active, is poor; moderate or marked is fair; else good. Faults of making never count. The grades: ${GRADE_SOURCE}; the proposal is our own.${lastSurvey?.grade ? ` Last time: ${GRADE_WORDS[lastSurvey.grade]}, ${dateInWords(lastSurvey.surveyedOn)}.` : ""}`}
              />
              <TextField form={form} name="surveyedOn" label="Day" type="date" isRequired />
              <LookedAtBy form={form} />
              <LongField form={form} name="note" label="Note on the whole" rows={3} most={4000} width="wide" />
            </div>
          </fieldset>
          <div class="record-foot">
            <button class="button" type="submit">
              Save this look
            </button>
            <a href={`/prints/${print.id}`}>Leave without saving</a>
          </div>
        </form>
        <TermDefinitions terms={terms} />
      </div>
    </Layout>
  );
}

/** The sides to read places off, with what is marked already; with the script, places are drawn on them. */
function Pictures({ print, pictures, standing }: SurveyFormPageProps) {
  if (pictures.length === 0) return null;
  const marks = standing.map((finding, index) => ({ ...finding, number: index + 1 }));
  return (
    <details class="side-pictures">
      <summary>
        The picture with a scale in mm{standing.some(({ regions }) => regions.length > 0) ? ", and the places marked before" : ""}
      </summary>
      <div class="side-pictures-row">
        {pictures.map((shown) => (
          <MarkedSide
            printId={print.id}
            shown={shown}
            marks={marks.filter(({ side }) => side === shown.side)}
            alt={`The ${shown.side} with a scale along its edges`}
            hasRuler
          />
        ))}
      </div>
    </details>
  );
}
