import { type Aim, purposeInSentence } from "#domain/aim/aim.ts";
import type { Side } from "#domain/capture/capture.ts";
import type { Choice } from "#domain/master/choice.ts";
import type { Verdict } from "#domain/master/judgement.ts";
import { MEASURE_NAMES, MEASURES, type MeasureName } from "#domain/measure/catalogue.ts";
import type { Reading } from "#domain/measure/reading.ts";
import { labelOf, limitInWords, standing } from "./aim-words.ts";
import { methodInWords, type ShownCapture } from "./capture-card.tsx";
import { FileName } from "./file-name.tsx";
import { MeasureValue, PlusMinusNote } from "./measure-value.tsx";
import { type NotMeasured, NotMeasuredNote } from "./not-measured.tsx";

/** A capture with what was read from it and where its measuring stands. */
export type MeasuredCapture = ShownCapture & {
  readonly readings: readonly Reading[];
  readonly setUpName: string | null;
  /** what keeps it from being measured; null when it is measured or nobody asked */
  readonly notMeasured: NotMeasured | null;
};

type Props = {
  side: Side;
  captures: readonly MeasuredCapture[];
  /** the aim the captures are held against; null before any was laid down */
  aim: Aim | null;
  /** what holds now for this side, all purposes */
  choices: readonly Choice[];
};

/** All captures of one side beside one another: a row a measure, a column a capture. */
export function MeasuresTable({ side, captures, aim, choices }: Props) {
  const choice = choices.find((each) => each.purpose.id === aim?.purpose.id);
  const verdictOf = (captureId: number) => choice?.explanation.verdicts.find((verdict) => verdict.captureId === captureId);
  const captionId = `measures-${side}`;
  const rows = rowsFor(captures, aim);
  const isAsked = (name: MeasureName) => aim === null || aim.limits.some((limit) => limit.measure === name);
  const others = rows.filter((name) => !isAsked(name));
  return (
    <>
      <section class="table-frame" aria-labelledby={captionId} tabindex={0}>
        <table class="table measures-table">
          <caption id={captionId} class="visually-hidden">
            {caption(side, aim)}
          </caption>
          <thead>
            <tr>
              <th scope="col">Measure</th>
              {captures.map((capture) => (
                <CaptureHead capture={capture} choices={choices} verdict={verdictOf(capture.id)} captures={captures} />
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.filter(isAsked).map((name) => (
              <MeasureRow name={name} captures={captures} aim={aim} verdictOf={verdictOf} />
            ))}
          </tbody>
          {choice ? (
            <tfoot>
              <tr>
                <th scope="row">
                  All together
                  <span class="second-line">
                    Weighted over what each capture shows: 100 is as good as the aim asks for in everything. Where one thing is so poor that
                    nothing makes up for it, there is no sum
                  </span>
                </th>
                {captures.map((capture) => (
                  <td>
                    <Overall verdict={verdictOf(capture.id)} aim={aim} />
                  </td>
                ))}
              </tr>
            </tfoot>
          ) : null}
        </table>
      </section>
      <PlusMinusNote />
      {others.length > 0 ? <OtherMeasures side={side} names={others} captures={captures} /> : null}
    </>
  );
}

/** What was read and the aim does not ask for, folded away: of use to whoever wants to know why. */
const OtherMeasures = ({ side, names, captures }: { side: Side; names: readonly MeasureName[]; captures: readonly MeasuredCapture[] }) => (
  <details>
    <summary>{names.length} more measures, which this aim does not ask for</summary>
    <section class="table-frame" aria-label={`More measures of the ${side}`} tabindex={0}>
      <table class="table measures-table">
        <thead>
          <tr>
            <th scope="col">Measure</th>
            {captures.map(({ id, name }) => (
              <th scope="col">
                <a href={`/captures/${id}`}>
                  <FileName name={name} />
                </a>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {names.map((name) => (
            <MeasureRow name={name} captures={captures} aim={null} verdictOf={() => undefined} />
          ))}
        </tbody>
      </table>
    </section>
  </details>
);

function CaptureHead(props: {
  capture: MeasuredCapture;
  choices: readonly Choice[];
  verdict: Verdict | undefined;
  captures: readonly MeasuredCapture[];
}) {
  const { capture, choices, verdict } = props;
  const masterFor = choices.filter((choice) => choice.captureId === capture.id).map((choice) => purposeInSentence(choice.purpose));
  const beatenBy = props.captures.find((other) => other.id === verdict?.beatenBy);
  return (
    <th scope="col" class={masterFor.length > 0 ? "is-master" : undefined}>
      <a href={`/captures/${capture.id}`}>
        <span class="thumbnail">
          <img src={`/captures/${capture.id}/thumbnail.jpg`} alt="" loading="lazy" />
        </span>
        <span class="capture-name">
          <FileName name={capture.name} />
        </span>
      </a>
      <span class="second-line">{methodInWords(capture)}</span>
      {capture.setUpName ? <span class="second-line">{capture.setUpName}</span> : null}
      {masterFor.length > 0 ? <span class="master-mark">Master: {masterFor.join(", ")}</span> : null}
      {beatenBy ? <span class="second-line">{beatenBy.name} is as good or better in everything shown</span> : null}
      {capture.notMeasured ? <NotMeasuredNote captureId={capture.id} why={capture.notMeasured} /> : null}
    </th>
  );
}

function MeasureRow(props: {
  name: MeasureName;
  captures: readonly MeasuredCapture[];
  aim: Aim | null;
  verdictOf: (captureId: number) => Verdict | undefined;
}) {
  const { name, captures, aim, verdictOf } = props;
  const limit = aim?.limits.find((each) => each.measure === name);
  return (
    <tr>
      <th scope="row">
        <details class="measure-meaning">
          <summary>{MEASURES[name].label}</summary>
          <p class="small">{MEASURES[name].meaning}</p>
        </details>
        {limit ? <span class="second-line">{limitInWords(limit)}</span> : null}
      </th>
      {captures.map((capture) => {
        const stands = standing(limit, verdictOf(capture.id));
        return (
          <td>
            <MeasureValue reading={capture.readings.find((reading) => reading.name === name)} />
            {stands ? <span class={`standing standing-${stands.state}`}>{stands.words}</span> : null}
          </td>
        );
      })}
    </tr>
  );
}

/** Every measure that was asked of any capture or that the aim asks for, in the order of the catalogue. */
function rowsFor(captures: readonly MeasuredCapture[], aim: Aim | null): MeasureName[] {
  const asked = new Set<string>([
    ...captures.flatMap((capture) => capture.readings.map((reading) => reading.name)),
    ...(aim?.limits ?? []).map((limit) => limit.measure),
  ]);
  return MEASURE_NAMES.filter((name) => asked.has(name));
}

const caption = (side: Side, aim: Aim | null): string =>
  `Captures of the ${side}${aim ? `, held against the aim for ${purposeInSentence(aim.purpose)}` : ""}`;

/** A sum, or which measures are so poor that no sum makes sense: the capture may be good in everything else. */
function Overall({ verdict, aim }: { verdict: Verdict | undefined; aim: Aim | null }) {
  if (verdict?.overall === undefined || verdict.overall === null) return <>nothing to judge</>;
  const spoilers = verdict.overall === 0 ? spoilersOf(verdict, aim) : [];
  if (spoilers.length === 0) return <>{Math.round(verdict.overall * 100)} of 100</>;
  return <span class="soft">no sum: nothing makes up for {spoilers.join(", ")}</span>;
}

/** The measures that alone bring all together down to nothing. */
function spoilersOf(verdict: Verdict, aim: Aim | null): string[] {
  const counting = new Set(aim?.limits.filter(({ weight }) => weight > 0).map(({ measure }) => measure));
  return verdict.measures
    .filter(({ measure, desirability }) => desirability === 0 && counting.has(measure))
    .map(({ measure }) => labelOf(measure).toLowerCase());
}
