import type { DatedFinding, FindingLife } from "#domain/condition/finding.ts";
import { severityInWords, termInWords } from "#domain/condition/finding-in-words.ts";
import { GRADE_MEANINGS, GRADE_SOURCE, GRADE_WORDS, proposedGrade } from "#domain/condition/grade.ts";
import { levelOf, SEVERITIES } from "#domain/condition/severity.ts";
import type { Survey } from "#domain/condition/survey.ts";
import { findTerm } from "#domain/condition/terms.ts";
import { dateInWords } from "#domain/print/date.ts";

export type ShownCondition = {
  /** the last one; null: nobody has looked at it yet */
  readonly survey: Survey | null;
  /** everything ever found, each through all surveys */
  readonly lives: readonly FindingLife[];
};

/** How the print is: grade, what was found and how each of it went on. */
export function Condition({ printId, survey, lives }: ShownCondition & { printId: number }) {
  const now = lives.map((life) => ({ life, last: lastOf(life) }));
  const standing = now.filter(({ last }) => last.surveyId === survey?.id && last.severity > 0);
  const gone = now.filter(({ last }) => last.change === "gone");
  const notFound = now.filter(({ life, last }) => life.length === 1 && last.severity === 0 && last.surveyId === survey?.id);
  return (
    <>
      {survey ? <Grade survey={survey} findings={now.filter(({ last }) => last.surveyId === survey.id).map(({ last }) => last)} /> : null}
      {survey ? null : <p class="soft">Nobody has looked at its condition yet.</p>}
      {standing.length > 0 ? (
        <ul class="findings">
          {standing.map(({ life }) => (
            <li>
              <StandingFinding life={life} />
            </li>
          ))}
        </ul>
      ) : null}
      {notFound.length > 0 ? <p>Looked for and not found: {notFound.map(({ last }) => termInWords(last)).join("; ")}.</p> : null}
      {gone.length > 0 ? (
        <details>
          <summary>Gone since: {gone.map(({ last }) => termInWords(last)).join("; ")}</summary>
          {gone.map(({ life }) => (
            <Timeline life={life} />
          ))}
        </details>
      ) : null}
      <p class="actions">
        <a class="button" href={`/prints/${printId}/survey`}>
          Look at its condition
        </a>
      </p>
    </>
  );
}

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
        Looked at on {dateInWords(survey.surveyedOn)}, {survey.who ?? "nobody named"}. The four grades: {GRADE_SOURCE}.
      </p>
      {survey.note ? <p class="as-typed">{survey.note}</p> : null}
    </div>
  );
}

function StandingFinding({ life }: { life: FindingLife }) {
  const last = lastOf(life);
  const term = findTerm(last.term);
  const level = SEVERITIES.find((each) => each === last.severity);
  return (
    <>
      <p>
        <strong>{termInWords(last)}</strong>: {severityInWords(last.severity)}
        {last.activity === "active" ? ", active" : last.activity === "stable" ? ", not active" : ""}
      </p>
      {term && level !== undefined ? <p class="small soft">{`${last.severity} of 4: ${levelOf(term, level)}`}</p> : null}
      {last.note ? <p class="as-typed">{last.note}</p> : null}
      {life.length > 1 ? <Timeline life={life} /> : null}
    </>
  );
}

/** One thing found, judgement by judgement, newest first. */
const Timeline = ({ life }: { life: FindingLife }) => (
  <ol class="finding-life" aria-label={`${termInWords(lastOf(life))} through the surveys`}>
    {life.toReversed().map((finding) => (
      <li>
        <span class="finding-day">{dateInWords(finding.surveyedOn)}</span> {judgementInWords(finding)}
      </li>
    ))}
  </ol>
);

function judgementInWords({ change, severity, earlierFindingId }: DatedFinding): string {
  if (change === "gone") return "gone";
  if (change) return `${change}, ${severityInWords(severity)}`;
  return earlierFindingId === null ? `found, ${severityInWords(severity)}` : `not looked at, last ${severityInWords(severity)}`;
}

const lastOf = (life: FindingLife): DatedFinding => life[life.length - 1] ?? life[0];
