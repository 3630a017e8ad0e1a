import type { AimLimit } from "#domain/aim/aim.ts";
import { boundInWords, valueInWords } from "#domain/aim/measure-words.ts";
import { TARGET_MEASURE_NAMES, TARGET_MEASURES } from "#domain/aim/target-measures.ts";
import { dateInWords } from "#domain/print/date.ts";
import type { FramePart } from "#domain/target/corner-figures.ts";
import type { KeptTargetRead } from "#domain/target/kept-read.ts";
import { type LimitStanding, standingsOf } from "#domain/target/passed.ts";
import { ControlChart } from "../parts/control-chart.tsx";
import { type FormState, LongField, TextField } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";
import { DoneNotice } from "../parts/notice.tsx";
import { PublishedLevels } from "../parts/published-levels.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";
import { SfrPlot } from "../parts/sfr-plot.tsx";

export type ShownTargetCheck = {
  readonly id: number;
  readonly setUpId: number;
  readonly takenOn: string;
  readonly targetName: string;
  readonly fileName: string;
  readonly referenceName: string | null;
  readonly note: string | null;
  readonly read: KeptTargetRead;
};

export type TargetChecksPageProps = {
  collectionName: string;
  setUp: { readonly id: number; readonly name: string };
  /** the oldest first */
  checks: readonly ShownTargetCheck[];
  /** what preservation masters ask */
  limits: readonly AimLimit[];
  form: FormState;
  done?: string;
};

const CHECK_LABELS: Readonly<Record<string, string>> = {
  picture: "Picture of the target",
  reference: "Reference values",
  layout: "Layout of the target",
  takenOn: "Taken on",
  note: "Note",
};

/** What a set-up proved on test targets, from check to check, and the form for one more. */
export function TargetChecksPage(props: TargetChecksPageProps) {
  const { setUp, checks, limits, form } = props;
  const latest = checks.at(-1);
  return (
    <Layout title={`Target checks of ${setUp.name}`} section="add" collectionName={props.collectionName}>
      <div class="page">
        <header class="page-head">
          <div>
            <p class="page-kicker">
              <a href={`/set-ups#set-up-${setUp.id}`}>{setUp.name}</a>
            </p>
            <h1>Target checks</h1>
            <p>A test target of known values proves what a set-up does to tones, colours and detail; no print can.</p>
          </div>
        </header>
        <DoneNotice done={props.done} />
        <RefusalSummary refusals={form.refusals} labels={CHECK_LABELS} title="No check was kept." />
        {latest ? (
          <LatestCheck check={latest} limits={limits} />
        ) : (
          <p class="card">This set-up was not checked on a target yet, so what only a target proves stays unknown for its captures.</p>
        )}
        {checks.length > 1 ? <Charts checks={checks} limits={limits} /> : null}
        {checks.length > 0 ? <AllChecks checks={checks} /> : null}
        <NewCheck setUpId={setUp.id} form={form} />
      </div>
    </Layout>
  );
}

function LatestCheck({ check, limits }: { check: ShownTargetCheck; limits: readonly AimLimit[] }) {
  const { read } = check;
  const standings = standingsOf(read.readings, limits);
  const missed = standings.filter(({ state }) => state === "missed").length;
  const open = standings.filter(({ state }) => state === "not shown").length;
  const curves = read.edges.flatMap(({ id, curve }) => (curve ? [{ label: id, ...curve }] : []));
  return (
    <>
      <section class="card" aria-labelledby="latest-title">
        <h2 id="latest-title">
          {dateInWords(check.takenOn)}: {verdict(missed, open, standings.length)}
        </h2>
        <p>
          {check.targetName}, {check.fileName}
          {check.referenceName ? `, held against ${check.referenceName}` : ", without reference values"}. Sampling {Math.round(read.ppi.x)}{" "}
          × {Math.round(read.ppi.y)} ppi.
        </p>
        <section class="table-frame" aria-label="What the check proves" tabindex={0}>
          <table class="table check-table">
            <thead>
              <tr>
                <th scope="col">Figure</th>
                <th scope="col">Read</th>
                <th scope="col">Asked of preservation masters</th>
                <th scope="col">Meaning</th>
              </tr>
            </thead>
            <tbody>
              {read.readings.map((reading) => (
                <tr>
                  <th scope="row">{TARGET_MEASURES[reading.name].label}</th>
                  <td>
                    {"value" in reading ? (
                      boundInWords(reading.name, reading.value, reading.bound ?? null)
                    ) : (
                      <span class="soft">Not read: {reading.absent}.</span>
                    )}
                    {"note" in reading && reading.note ? <span class="second-line">{reading.note}</span> : null}
                  </td>
                  <td>{askedInWords(standings.find(({ limit }) => limit.measure === reading.name))}</td>
                  <td class="small soft">{TARGET_MEASURES[reading.name].meaning}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
        {curves.length > 0 ? <SfrPlot curves={curves} /> : null}
        {read.edges.length > 0 ? <Edges read={read} /> : null}
        {read.patches.some(({ deltaE }) => deltaE !== null) ? <Patches read={read} /> : null}
      </section>
      <PublishedLevels readings={[]} check={{ setUpId: check.setUpId, takenOn: check.takenOn, readings: read.readings }} />
    </>
  );
}

function verdict(missed: number, open: number, all: number): string {
  if (missed > 0) return `${missed} of ${all} figures miss what is asked`;
  return open > 0 ? `nothing is missed, and ${open} of ${all} figures are not shown` : "all that is asked is met";
}

function askedInWords(standing: LimitStanding | undefined): string {
  if (!standing) return "nothing";
  const { limit, state } = standing;
  const ends = [
    ...(limit.requiredAtLeast === null ? [] : [`at least ${valueInWords(limit.measure, limit.requiredAtLeast)}`]),
    ...(limit.requiredAtMost === null ? [] : [`at most ${valueInWords(limit.measure, limit.requiredAtMost)}`]),
  ].join(", ");
  return `${ends}: ${state}`;
}

function Edges({ read }: { read: KeptTargetRead }) {
  const inWords = (frequency: number | null) => (frequency === null ? "finer than is told" : frequency.toFixed(2));
  return (
    <details>
      <summary>Edges, each with its place in the frame</summary>
      <section class="table-frame" aria-label="Edges" tabindex={0}>
        <table class="table">
          <thead>
            <tr>
              <th scope="col">Edge</th>
              <th scope="col">Place in the frame</th>
              <th scope="col">Read</th>
              <th scope="col">SFR 50 %, cy/mm</th>
              <th scope="col">SFR 10 %, cy/mm</th>
            </tr>
          </thead>
          <tbody>
            {read.edges.map(({ id, part, direction, refused, sfr50CyPerMm, sfr10CyPerMm }) => (
              <tr>
                <th scope="row">{id}</th>
                <td>{part === undefined ? "not kept" : PART_WORDS[part]}</td>
                <td>{direction}</td>
                {refused === null ? (
                  <>
                    <td>{inWords(sfr50CyPerMm)}</td>
                    <td>{inWords(sfr10CyPerMm)}</td>
                  </>
                ) : (
                  <td colspan={2} class="soft">
                    Not read: {refused}.
                  </td>
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </details>
  );
}

const PART_WORDS: Readonly<Record<FramePart, string>> = {
  "top left": "top left corner",
  "top right": "top right corner",
  "bottom right": "bottom right corner",
  "bottom left": "bottom left corner",
  middle: "middle",
  between: "between middle and corners",
};

function Patches({ read }: { read: KeptTargetRead }) {
  const inOrder = read.patches.filter(({ deltaE }) => deltaE !== null).toSorted((a, b) => (b.deltaE ?? 0) - (a.deltaE ?? 0));
  return (
    <details>
      <summary>Patches, the farthest off first</summary>
      <section class="table-frame" aria-label="Patches" tabindex={0}>
        <table class="table">
          <thead>
            <tr>
              <th scope="col">Patch</th>
              <th scope="col">Should be L*, a*, b*</th>
              <th scope="col">Read</th>
              <th scope="col">ΔE2000</th>
            </tr>
          </thead>
          <tbody>
            {inOrder.map(({ id, truth, colour, deltaE }) => (
              <tr>
                <th scope="row">{id}</th>
                <td>{truth ? labInWords(truth) : ""}</td>
                <td>{labInWords(colour)}</td>
                <td>{deltaE?.toFixed(1)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </details>
  );
}

const labInWords = (colour: readonly number[]): string => colour.map((value) => value.toFixed(1).replace("-", "−")).join(", ");

function Charts({ checks, limits }: { checks: readonly ShownTargetCheck[]; limits: readonly AimLimit[] }) {
  const shown = TARGET_MEASURE_NAMES.map((measure) => ({
    measure,
    limit: limits.find((limit) => limit.measure === measure),
    values: checks.flatMap(({ takenOn, read }) => {
      const reading = read.readings.find(({ name }) => name === measure);
      return reading && "value" in reading ? [{ day: takenOn, value: reading.value }] : [];
    }),
  })).filter(({ values }) => values.length > 1);
  return (
    <section class="card" aria-labelledby="charts-title">
      <h2 id="charts-title">From check to check</h2>
      <p class="small soft">
        Full line: what preservation masters are asked. Dashed: what the set-up's own past lets one expect (NIST/SEMATECH e-Handbook,
        6.3.2.2).
      </p>
      <div class="control-charts">
        {shown.map(({ measure, limit, values }) => (
          <ControlChart measure={measure} values={values} most={limit?.requiredAtMost ?? null} least={limit?.requiredAtLeast ?? null} />
        ))}
      </div>
    </section>
  );
}

const AllChecks = ({ checks }: { checks: readonly ShownTargetCheck[] }) => (
  <section class="card" aria-labelledby="all-title">
    <h2 id="all-title">All checks</h2>
    <ul class="check-list">
      {checks.toReversed().map(({ id, takenOn, targetName, fileName, note }) => (
        <li>
          <p>
            {dateInWords(takenOn)}: {targetName}, {fileName}
            {note ? `. ${note}` : ""}
          </p>
          <form method="post" action={`/target-checks/${id}/take-out`}>
            <button class="button button-quiet" type="submit">
              Take out<span class="visually-hidden"> the check of {dateInWords(takenOn)}</span>
            </button>
          </form>
        </li>
      ))}
    </ul>
  </section>
);

const NewCheck = ({ setUpId, form }: { setUpId: number; form: FormState }) => (
  <form class="card" method="post" action={`/set-ups/${setUpId}/checks`} enctype="multipart/form-data">
    <h2>Check it on a target</h2>
    <p>
      Lay the target where prints lie, on a plain ground of another tone, and take it as you take prints: same distance, light, settings and
      file. Reading it takes some seconds. Without a bought target, <a href="/target-page.pdf">print this page</a>: it proves detail,
      evenness and scale, not tones and colours.
    </p>
    <TextField form={form} name="takenOn" label="Taken on" most={20} hint="As 2026-03-01; empty: as the file says, or today" />
    <LongField form={form} name="note" label="Note" rows={2} most={1000} />
    <FileField
      name="layout"
      label="Layout of the target"
      accept=".json,application/json"
      hint="A small description file; empty: the page that this program prints"
    />
    <FileField
      name="reference"
      label="Reference values"
      accept=".txt,.cie,.cgats,text/plain"
      hint="The text file that came with the target (CGATS.17); empty: tone and colour are not read"
    />
    <FileField name="picture" label="Picture of the target" accept="image/*,.tif,.tiff,.dng,.heic" isRequired />
    <button class="button" type="submit">
      Read the target
    </button>
  </form>
);

const FileField = (props: { name: string; label: string; accept: string; hint?: string; isRequired?: boolean }) => (
  <div class="field">
    <label for={`field-${props.name}`}>
      {props.label}
      {props.isRequired ? <span class="required"> (needed)</span> : null}
    </label>
    <input
      id={`field-${props.name}`}
      type="file"
      name={props.name}
      accept={props.accept}
      required={props.isRequired}
      aria-describedby={props.hint ? `field-${props.name}-hint` : undefined}
    />
    {props.hint ? (
      <p class="hint" id={`field-${props.name}-hint`}>
        {props.hint}
      </p>
    ) : null}
  </div>
);
