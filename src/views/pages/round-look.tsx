import type { Caution } from "#domain/condition/cautions-for.ts";
import type { DatedFinding } from "#domain/condition/finding.ts";
import type { Term } from "#domain/condition/term.ts";
import { Cautions } from "../parts/cautions.tsx";
import { draft } from "../parts/draft.ts";
import type { FormState } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";
import { MarkedSide, type ShownSidePicture } from "../parts/marked-side.tsx";
import { QuickFound, QuickRejudged, quickLabels } from "../parts/quick-survey-fields.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";
import { LookedAtBy } from "../parts/survey-fields.tsx";
import { TermNames } from "../parts/term-choice.tsx";
import { TermDefinitions } from "../parts/term-definitions.tsx";

export type RoundLookPageProps = {
  collectionName: string;
  round: { readonly id: number; readonly name: string; readonly all: number };
  /** the how many-th look this is */
  number: number;
  print: { readonly id: number; readonly uuid: string; readonly objectNumber: string; readonly title: string };
  cautions: readonly Caution[];
  lastSurveyId: number | null;
  standing: readonly DatedFinding[];
  terms: readonly Term[];
  pictures: readonly ShownSidePicture[];
  /** shown where no side can be shown straightened */
  captureId: number | null;
  form: FormState;
  /** the form was sent and comes back */
  isAnswer: boolean;
};

const NEW_ROWS = 2;

/**
 * One print of many, for a keyboard: the page opens on "nothing new", so that one press of Enter keeps the look and brings the next;
 * Tab leads on to what was found before and what is new.
 */
export function RoundLookPage(props: RoundLookPageProps) {
  const { round, print, standing, terms, form } = props;
  const address = `/rounds/${round.id}/look`;
  const isRefused = form.refusals.length > 0;
  return (
    <Layout
      title={`${print.objectNumber}, ${props.number} of ${round.all}`}
      section="condition"
      collectionName={props.collectionName}
      scripts={["term-meaning.js", "draft.js"]}
    >
      <div class="page">
        <header class="page-head">
          <div>
            <p>
              <a href={`/rounds/${round.id}`}>{round.name}</a>: {props.number} of {round.all}
            </p>
            <h1>
              <span class="object-number">{print.objectNumber}</span> {print.title === "" ? "Untitled" : print.title}
            </h1>
          </div>
        </header>
        <RefusalSummary refusals={form.refusals} labels={quickLabels(standing, NEW_ROWS)} />
        <div class="round-look">
          <div class="stack">
            <Picture {...props} />
            <Cautions cautions={props.cautions} printId={print.id} />
          </div>
          <div class="stack">
            <form class="round-same" method="post" action={address}>
              <input type="hidden" name="print" value={String(print.id)} />
              <input type="hidden" name="lookedAtBy" value={form.typed.lookedAtBy ?? ""} />
              <p>
                {form.typed.lookedAtBy ? (
                  <>
                    Kept as looked at by <strong>{form.typed.lookedAtBy}</strong>
                  </>
                ) : (
                  "Kept without a name"
                )}
                ; {form.typed.lookedAtBy ? "another" : "one"} is written at the foot of the form, for this look and those after it.
              </p>
              <button class="button" type="submit" name="step" value="same" autofocus={!isRefused}>
                Nothing new: keep and go on
              </button>
              <button class="button button-quiet" type="submit" name="step" value="pass">
                Leave for later
              </button>
              <p class="hint">
                {standing.length === 0
                  ? "Nothing was found before. Enter keeps that nothing was found; Tab leads on to what is new."
                  : "Enter keeps that all below is the same; Tab leads on to what changed."}
              </p>
            </form>
            <form
              class="record round-form"
              method="post"
              action={address}
              novalidate
              {...draft(`round ${round.id} ${print.uuid}`, props.lastSurveyId ?? 0, props.isAnswer)}
            >
              <input type="hidden" name="print" value={String(print.id)} />
              {standing.length > 0 ? (
                <fieldset class="record-group">
                  <legend>Found before</legend>
                  {standing.map((finding, index) => (
                    <QuickRejudged form={form} finding={finding} index={index} />
                  ))}
                </fieldset>
              ) : null}
              <fieldset class="record-group">
                <legend>New</legend>
                {Array.from({ length: NEW_ROWS }, (_, index) => (
                  <QuickFound form={form} index={index} />
                ))}
                <TermNames terms={terms} />
              </fieldset>
              <fieldset class="record-group">
                <legend>The look</legend>
                <div class="field-grid">
                  <LookedAtBy form={form} />
                </div>
              </fieldset>
              <div class="record-foot">
                <button class="button" type="submit" name="step" value="save">
                  Keep and go on
                </button>
                <a href={`/prints/${print.id}/survey`}>The whole form, with places and grade</a>
              </div>
            </form>
          </div>
        </div>
        <TermDefinitions terms={terms} />
      </div>
    </Layout>
  );
}

function Picture({ print, pictures, standing, captureId }: RoundLookPageProps) {
  const [front] = pictures;
  if (front) {
    const marks = standing.map((finding, index) => ({ ...finding, number: index + 1 })).filter(({ side }) => side === front.side);
    return <MarkedSide printId={print.id} shown={front} marks={marks} alt={`The ${front.side} of ${print.objectNumber}`} />;
  }
  return captureId === null ? (
    <p class="soft">There is no capture of this print.</p>
  ) : (
    <div class="capture-view">
      <img src={`/captures/${captureId}/view.jpg`} alt={`Capture of ${print.objectNumber}`} />
    </div>
  );
}
