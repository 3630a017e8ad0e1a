import { conditionNow, lastOf } from "#domain/condition/condition-now.ts";
import { EXTENT_WORDS } from "#domain/condition/extent.ts";
import type { DatedFinding, FindingLife } from "#domain/condition/finding.ts";
import { severityInWords, termInWords } from "#domain/condition/finding-in-words.ts";
import type { FindingPhotograph } from "#domain/condition/finding-photograph.ts";
import { GRADE_MEANINGS, GRADE_SOURCE, GRADE_WORDS, proposedGrade } from "#domain/condition/grade.ts";
import { regionsInWords } from "#domain/condition/marked-region.ts";
import type { NextSurvey } from "#domain/condition/next-survey.ts";
import { levelOf, SEVERITIES } from "#domain/condition/severity.ts";
import { byWhomInWords, type Survey } from "#domain/condition/survey.ts";
import { findTerm } from "#domain/condition/terms.ts";
import { dateInWords } from "#domain/print/date.ts";
import { FindingPhotographs } from "./finding-photographs.tsx";
import { FindingTimeline } from "./finding-timeline.tsx";
import { MarkedSide, type ShownSidePicture } from "./marked-side.tsx";

export type ShownCondition = {
  /** the last one; null: nobody has looked at it yet */
  readonly survey: Survey | null;
  /** everything ever found, each through all surveys */
  readonly lives: readonly FindingLife[];
  /** by when to look again; null before the first look */
  readonly next: NextSurvey | null;
  readonly today: string;
  /** sides that can be shown with the marked places on them */
  readonly pictures: readonly ShownSidePicture[];
  /** by finding */
  readonly photographs: ReadonlyMap<number, readonly FindingPhotograph[]>;
};

/** How the print is: grade, what was found and how each of it went on. */
export function Condition({ printId, survey, lives, pictures, photographs, next, today }: ShownCondition & { printId: number }) {
  const { standing, gone, notFound } = conditionNow(lives, survey);
  const marked = pictures.flatMap((picture) => {
    const marks = standing.flatMap(({ last }, index) =>
      last.side === picture.side && last.regions.length > 0 ? [{ number: index + 1, regions: last.regions }] : [],
    );
    return marks.length > 0 ? [{ picture, marks }] : [];
  });
  return (
    <>
      {survey ? <Grade survey={survey} findings={[...standing, ...notFound].map(({ last }) => last)} /> : null}
      {next ? <Due next={next} today={today} /> : null}
      {survey ? null : <p class="soft">Nobody has looked at its condition yet.</p>}
      <div class={marked.length > 0 ? "condition-marked" : undefined}>
        {marked.length > 0 ? (
          <div class="stack">
            {marked.map(({ picture, marks }) => (
              <MarkedSide
                printId={printId}
                shown={picture}
                marks={marks}
                alt={`The ${picture.side} with the places of ${marks.map(({ number }) => `finding ${number}`).join(", ")} marked`}
              />
            ))}
          </div>
        ) : null}
        {standing.length > 0 ? (
          <ol class="findings">
            {standing.map(({ life }, index) => (
              <li>
                <StandingFinding life={life} number={index + 1} photographs={photographsOf(life, photographs)} />
              </li>
            ))}
          </ol>
        ) : null}
      </div>
      {standing.some(({ last }) => last.regions.length > 0) ? (
        <p class="small">
          <a href={`/prints/${printId}/annotations.json`}>The marked places for other programs</a> (W3C Web Annotation)
        </p>
      ) : null}
      {notFound.length > 0 ? <p>Looked for and not found: {notFound.map(({ last }) => termInWords(last)).join("; ")}.</p> : null}
      {gone.length > 0 ? (
        <details>
          <summary>Gone since: {gone.map(({ last }) => termInWords(last)).join("; ")}</summary>
          {gone.map(({ life, last }) => (
            <>
              <FindingTimeline life={life} />
              <FindingPhotographs photographs={photographsOf(life, photographs)} of={termInWords(last)} />
            </>
          ))}
        </details>
      ) : null}
      <p class="actions">
        <a class="button" href={`/prints/${printId}/survey`}>
          Look at its condition
        </a>
        <a class="button button-quiet" href={`/prints/${printId}/condition-report`}>
          Condition report
        </a>
        <a class="button button-quiet" href={`/prints/${printId}/condition-report.pdf`}>
          Condition report (PDF)
        </a>
        <a class="button button-quiet" href={`/prints/${printId}/change`}>
          Change over time, measured
        </a>
      </p>
    </>
  );
}

const Due = ({ next, today }: { next: NextSurvey; today: string }) => (
  <p>
    <strong>{next.dueOn <= today ? `A look is due since ${dateInWords(next.dueOn)}` : `Next look by ${dateInWords(next.dueOn)}`}</strong>,
    because {next.because}. <span class="small soft">Interval: {next.source}.</span>
  </p>
);

function Grade({ survey, findings }: { survey: Survey; findings: readonly DatedFinding[] }) {
  const proposed = proposedGrade(findings);
  return (
    <div class="grade">
      {survey.grade ? (
        <>
          <p class="grade-word">{GRADE_WORDS[survey.grade]}</p>
          <p>
            {GRADE_MEANINGS[survey.grade]}{" "}
            {survey.gradeBasis === "said" && survey.grade !== proposed.grade
              ? `Given by a person; proposed was ${GRADE_WORDS[proposed.grade].toLowerCase()}, as ${proposed.because}.`
              : `Because ${proposed.because}.`}
          </p>
        </>
      ) : null}
      <p class="small soft">
        Looked at on {dateInWords(survey.surveyedOn)}, {byWhomInWords(survey)}. The four grades: {GRADE_SOURCE}.
      </p>
      {survey.note ? <p class="as-typed">{survey.note}</p> : null}
    </div>
  );
}

/** Of every look at it. */
const photographsOf = (life: FindingLife, photographs: ShownCondition["photographs"]): FindingPhotograph[] =>
  life.flatMap(({ id }) => photographs.get(id) ?? []);

function StandingFinding(props: { life: FindingLife; number: number; photographs: readonly FindingPhotograph[] }) {
  const { life, number, photographs } = props;
  const last = lastOf(life);
  const term = findTerm(last.term);
  const level = SEVERITIES.find((each) => each === last.severity);
  return (
    <>
      <p>
        <span class="finding-number">{number}</span> <strong>{termInWords(last)}</strong>: {severityInWords(last.severity)}
        {last.activity === "active" ? ", active" : last.activity === "stable" ? ", not active" : ""}
        {last.extent ? `, ${EXTENT_WORDS[last.extent]}` : ""}
      </p>
      {term && level !== undefined ? <p class="small soft">{`${last.severity} of 4: ${levelOf(term, level)}`}</p> : null}
      {last.note ? <p class="as-typed">{last.note}</p> : null}
      {last.regions.length > 0 ? <p class="small soft">{regionsInWords(last.regions)}</p> : null}
      {life.length > 1 ? <FindingTimeline life={life} /> : null}
      <FindingPhotographs photographs={photographs} of={termInWords(last)} />
      <p class="small">
        <a href={`/findings/${last.id}/photographs`}>
          {photographs.length === 0 ? "Add a photograph" : "Add or take out photographs"}
          <span class="visually-hidden"> of {termInWords(last)}</span>
        </a>
      </p>
    </>
  );
}
