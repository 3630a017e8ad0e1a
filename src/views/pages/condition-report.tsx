import type { LifeNow } from "#domain/condition/condition-now.ts";
import type { ConditionReport, ReportChange } from "#domain/condition/condition-report.ts";
import { termInWords } from "#domain/condition/finding-in-words.ts";
import type { FindingPhotograph } from "#domain/condition/finding-photograph.ts";
import { LEVEL_WORDS } from "../parts/cautions.tsx";
import * as words from "../parts/condition-report-words.ts";
import { Layout } from "../parts/layout.tsx";
import { MarkedSide } from "../parts/marked-side.tsx";
import { notWith } from "../parts/method-stop.tsx";

/** The condition of one print, laid out as it comes onto paper: A4 or Letter, without the ways to elsewhere. */
export const ConditionReportPage = ({ report }: { report: ConditionReport }) => {
  const { print, survey, collectionName } = report;
  const first = words.firstToMind(report);
  return (
    <Layout title={`Condition report of ${print.objectNumber}`} section="prints" collectionName={collectionName}>
      <div class="page report-page">
        <p class="actions">
          <a class="button button-quiet" href={`/prints/${print.id}`}>
            Back to the print
          </a>
          <a class="button button-quiet" href={`/prints/${print.id}/condition-report.pdf`}>
            The same as PDF
          </a>
          <span class="small soft">Print this page from the browser: the report alone comes out, on A4 or Letter.</span>
        </p>
        <article class="card report">
          <header class="page-head">
            <div>
              <p class="object-number">{print.objectNumber}</p>
              <h1>{print.title === "" ? "Untitled" : print.title}</h1>
              <p>{words.reportLine(report)}</p>
            </div>
          </header>
          {first ? (
            <p>
              <strong>{first}</strong>
            </p>
          ) : null}
          <div class={`report-first${report.sides.filter((side) => !("absent" in side)).length === 1 ? " report-beside" : ""}`}>
            <Pictures report={report} />
            <section aria-labelledby="record-title">
              <h2 id="record-title">Record</h2>
              <Facts facts={words.recordFacts(report)} />
            </section>
          </div>
          <section aria-labelledby="condition-title">
            <h2 id="condition-title">Condition</h2>
            {survey ? (
              <>
                <Facts facts={words.conditionFacts(survey, report)} />
                {survey.grade === null ? null : <p class="small soft">{words.gradeGround(survey)}</p>}
              </>
            ) : (
              <p>{words.NOT_LOOKED_AT}</p>
            )}
          </section>
          <Findings report={report} />
          <WhatToMind report={report} />
          <Changes report={report} />
          <section class="report-whole" aria-labelledby="signatures-title">
            <h2 id="signatures-title">Signatures</h2>
            {words.SIGNATURES.map((line) => (
              <p class="report-signature">{line}</p>
            ))}
          </section>
        </article>
      </div>
    </Layout>
  );
};

const Facts = ({ facts }: { facts: readonly words.ReportFact[] }) => (
  <dl class="report-facts">
    {facts.map(({ name, value }) => (
      <div>
        <dt>{name}</dt>
        <dd class="as-typed">{value}</dd>
      </div>
    ))}
  </dl>
);

const Pictures = ({ report: { print, sides, standing } }: { report: ConditionReport }) => (
  <section aria-labelledby="pictures-title">
    <h2 id="pictures-title">Pictures</h2>
    <div class="report-sides">
      {sides.map((side) => {
        if ("absent" in side) return null;
        const marks = words.marksOn(side.side, standing);
        return (
          <MarkedSide
            printId={print.id}
            shown={side}
            marks={marks}
            alt={words.sideAlt(side, marks)}
            words={words.sideWords(side, standing)}
          />
        );
      })}
    </div>
    {sides.map((side) => ("absent" in side ? <p class="small soft">{words.sideWords(side, standing)}</p> : null))}
  </section>
);

const Findings = ({ report }: { report: ConditionReport }) =>
  report.standing.length === 0 ? null : (
    <section aria-labelledby="findings-title">
      <h2 id="findings-title">Findings</h2>
      {report.standing.map((now, index) => (
        <Finding now={now} number={index + 1} photographs={words.photographsOf(now, report.photographs)} />
      ))}
      {report.leftOut > 0 ? <p class="soft">{words.leftOutWords(report)}</p> : null}
    </section>
  );

const Finding = ({ now, number, photographs }: { now: LifeNow; number: number; photographs: readonly FindingPhotograph[] }) => {
  const level = words.findingLevel(now);
  return (
    <div class="report-finding">
      <h3>
        <span class="finding-number">{number}</span> {words.findingTitle(now)}
      </h3>
      {level === null ? null : <p>{level}</p>}
      <Facts facts={words.findingFacts(now)} />
      {photographs.length > 0 ? (
        <ul class="report-photographs">
          {photographs.map((photograph) => (
            <li>
              <figure>
                <img
                  src={`/photographs/${photograph.id}/view.jpg`}
                  alt={`Photograph of ${termInWords(now.last)}`}
                  width={photograph.widthPx}
                  height={photograph.heightPx}
                />
                <figcaption class="small">{words.photographWords(photograph)}</figcaption>
              </figure>
            </li>
          ))}
        </ul>
      ) : null}
    </div>
  );
};

const WhatToMind = ({ report: { cautions, keptFrom } }: { report: ConditionReport }) => (
  <section aria-labelledby="mind-title">
    <h2 id="mind-title">What to mind</h2>
    {keptFrom.length > 0 ? (
      <p>
        <strong>Capturing:</strong> {notWith(keptFrom)}, by the cautions below.
      </p>
    ) : null}
    {cautions.map(({ level, title, text, cause, source }) => (
      <div class="report-whole">
        <p>
          <strong>
            {LEVEL_WORDS[level]}: {title}:
          </strong>{" "}
          {text}
        </p>
        <p class="small soft">
          {cause} Source: {source}.
        </p>
      </div>
    ))}
    {[...new Set(cautions.map(({ defer }) => defer))].map((line) => (
      <p>{line}</p>
    ))}
  </section>
);

const Changes = ({ report: { print, changes } }: { report: ConditionReport }) => (
  <section aria-labelledby="change-title">
    <h2 id="change-title">Change, measured between captures</h2>
    {changes.length === 0 ? <p>{words.NO_TWO_DAYS}</p> : null}
    {changes.map((change) => (
      <>
        <h3>{words.changeTitle(change)}</h3>
        {change.held && !("refused" in change.held) ? <Facts facts={words.changeFacts(change.held)} /> : <p>{words.whyNoChange(change)}</p>}
        <p class="actions">
          <a href={changeAddress(print.id, change)}>
            {change.held === null ? "Work it out now" : "See both captures and the map of change"}
          </a>
        </p>
      </>
    ))}
    {changes.some((change) => words.whyNoChange(change) === null) ? <p class="small soft">{words.CHANGE_GROUND}</p> : null}
  </section>
);

const changeAddress = (printId: number, { side, olderId, newerId }: ReportChange): string =>
  `/prints/${printId}/change?side=${side}&older=${olderId}&newer=${newerId}`;
