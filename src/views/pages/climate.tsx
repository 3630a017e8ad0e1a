import type { ClimateDay } from "#domain/storage/climate/days.ts";
import type { PlaceClimate } from "#domain/storage/climate/place-climate.ts";
import type { ClimateSeries } from "#domain/storage/climate/series.ts";
import { STRETCHES, type StretchName } from "#domain/storage/climate/stretch.ts";
import type { Place } from "#domain/storage/place.ts";
import { counted } from "../format/counted.ts";
import { ClimateChart } from "../parts/climate-chart.tsx";
import { AgainstLimits, ClimateFigures } from "../parts/climate-figures.tsx";
import { type FormState, TextField } from "../parts/field.tsx";
import { ImportReportView, isReport } from "../parts/import-report.tsx";
import { Layout } from "../parts/layout.tsx";
import { Moment } from "../parts/moment.tsx";
import { DoneNotice } from "../parts/notice.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";

export type ClimatePageProps = {
  collectionName: string;
  place: Place;
  path: string;
  stretch: StretchName;
  shown: {
    series: ClimateSeries;
    climate: PlaceClimate;
    steps: readonly ClimateDay[];
    stepSeconds: number;
    processNames: ReadonlyMap<string, string>;
  } | null;
  /** the place around it whose readings tell of it, where it has none of its own */
  toldBy: { id: number; path: string } | null;
  imports: readonly {
    readonly id: number;
    readonly fileName: string | null;
    readonly readingCount: number;
    readonly report: Readonly<Record<string, unknown>>;
    readonly who: string | null;
    readonly createdAt: string;
  }[];
  upload: FormState;
  reading: FormState;
  done?: string;
};

const UPLOAD_LABELS = { file: "Logger's file" };
const READING_LABELS = { at: "Day and time", timeZone: "Time zone", temperature: "Temperature", humidity: "Relative humidity" };

/** A place's climate: what was read, what it means for the prints there, and the ways to add readings. */
export function ClimatePage(props: ClimatePageProps) {
  const { place, shown, stretch } = props;
  const [limit] = shown?.climate.againstLimits.map((line) => line.limit.allowed) ?? [];
  const bounds = (
    pick: (climate: {
      leastC: number | null;
      mostC: number | null;
      leastPercent: number | null;
      mostPercent: number | null;
    }) => (number | null)[],
  ) => [...new Set((limit ?? []).flatMap(pick))].filter((bound) => bound !== null);
  return (
    <Layout title={`Climate of ${place.name}`} section="places" collectionName={props.collectionName}>
      <div class="page">
        <header class="page-head">
          <div>
            <h1>Climate of {place.name}</h1>
            <p>{props.path}</p>
          </div>
          {shown ? (
            <nav class="switch" aria-label="Stretch of time">
              {(Object.keys(STRETCHES) as StretchName[]).map((name) => (
                <a href={`/places/${place.id}/climate?stretch=${name}`} aria-current={name === stretch ? "true" : undefined}>
                  {STRETCHES[name]}
                </a>
              ))}
            </nav>
          ) : null}
        </header>
        <DoneNotice done={props.done} />
        <RefusalSummary refusals={props.upload.refusals} labels={UPLOAD_LABELS} />
        <RefusalSummary refusals={props.reading.refusals} labels={READING_LABELS} />
        {shown ? (
          <>
            <section class="card" aria-label="Chart">
              <p>
                {counted(shown.series.atSeconds.length, "reading", "readings")} from {day(shown.series.fromSeconds)} to{" "}
                {day(shown.series.toSeconds - 1)} (UTC).
              </p>
              <ClimateChart
                steps={shown.steps}
                stepSeconds={shown.stepSeconds}
                fromSeconds={shown.series.fromSeconds}
                toSeconds={shown.series.toSeconds}
                temperatureBounds={bounds(({ leastC, mostC }) => [leastC, mostC])}
                humidityBounds={bounds(({ leastPercent, mostPercent }) => [leastPercent, mostPercent])}
              />
            </section>
            <AgainstLimits lines={shown.climate.againstLimits} processNames={shown.processNames} />
            <section class="card" aria-label="Figures">
              <ClimateFigures climate={shown.climate} />
            </section>
          </>
        ) : (
          <section class="card">
            <p>
              Nothing was read here yet.{" "}
              {props.toldBy ? (
                <>
                  What is read in <a href={`/places/${props.toldBy.id}/climate`}>{props.toldBy.path}</a> tells of the prints here.
                </>
              ) : (
                "Add the file of a logger that stood here, or type what an instrument shows."
              )}
            </p>
          </section>
        )}
        <div class="field-grid climate-adding">
          <Upload {...props} />
          <TypedReading {...props} />
        </div>
        <Imports {...props} />
      </div>
    </Layout>
  );
}

const Upload = ({ place, upload }: ClimatePageProps) => (
  <form class="card" method="post" action={`/places/${place.id}/climate/files`} enctype="multipart/form-data">
    <h2>Add a logger's file</h2>
    <div class="field">
      <label for="field-file">{UPLOAD_LABELS.file}</label>
      <input type="file" id="field-file" name="file" accept=".csv,.txt,text/csv,text/plain" required aria-describedby="file-hint" />
      <p class="hint" id="file-hint">
        CSV, as its program writes it. The next page shows the first rows and asks what the columns are; nothing is kept before that.
      </p>
    </div>
    <button class="button" type="submit">
      Look at the file
    </button>
    {upload.refusals.length > 0 ? <p class="soft">Choose the file anew: a browser does not keep it.</p> : null}
  </form>
);

const TypedReading = ({ place, reading }: ClimatePageProps) => (
  <form class="card" method="post" action={`/places/${place.id}/climate/readings`} novalidate>
    <h2>Type one reading</h2>
    <TextField form={reading} name="at" label="Day and time" isRequired most={40} hint="Such as 2026-03-01 14:30" />
    <TextField form={reading} name="timeZone" label="Time zone" isRequired most={60} />
    <TextField form={reading} name="temperature" label="Temperature" inputMode="decimal" unit="°C" width="narrow" most={20} />
    <TextField form={reading} name="humidity" label="Relative humidity" inputMode="decimal" unit="%" width="narrow" most={20} />
    <button class="button" type="submit">
      Keep the reading
    </button>
  </form>
);

const MOST_LISTED = 50;

const Imports = ({ place, imports }: ClimatePageProps) =>
  imports.length === 0 ? null : (
    <section class="card" aria-labelledby="imports-title">
      <h2 id="imports-title">What was added</h2>
      <ul class="climate-imports">
        {imports.slice(0, MOST_LISTED).map((each) => (
          <li>
            <p>
              <strong class="as-typed">{each.fileName ?? "Typed"}</strong>: {counted(each.readingCount, "reading", "readings")},{" "}
              <Moment at={each.createdAt} />, {each.who ?? "by the program"}
            </p>
            {isReport(each.report) ? <ImportReportView report={each.report} /> : null}
            <form method="post" action={`/places/${place.id}/climate/imports/${each.id}/take-back`}>
              <button class="button button-quiet button-small" type="submit">
                Take these readings out again
              </button>
            </form>
          </li>
        ))}
        {imports.length > MOST_LISTED ? <li>and {imports.length - MOST_LISTED} earlier ones</li> : null}
      </ul>
    </section>
  );

const day = (seconds: number): string => new Date(seconds * 1000).toISOString().slice(0, 10);
