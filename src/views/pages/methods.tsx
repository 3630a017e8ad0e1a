import { type Aim, type Purpose, purposeInSentence } from "#domain/aim/aim.ts";
import { valueInWords } from "#domain/aim/measure-words.ts";
import { describeMeasure } from "#domain/aim/target-measures.ts";
import type { WaysCompared } from "#domain/methods/compare-ways.ts";
import { costInWords, paceInWords } from "#domain/methods/effort-in-words.ts";
import type { WaySummary } from "#domain/methods/summarise-way.ts";
import { capital } from "#domain/sentence.ts";
import { counted } from "../format/counted.ts";
import { ChoiceField } from "../parts/field.tsx";
import { GainPlot, PairedTable } from "../parts/gain-plot.tsx";
import { Layout } from "../parts/layout.tsx";

type NamedWay = WaySummary & { readonly name: string };

export type MethodsPageProps = {
  collectionName: string;
  purposes: readonly Purpose[];
  aim: Aim;
  by: "method" | "set-up";
  ways: readonly NamedWay[];
  unnamed: number;
  pair: { readonly first: string; readonly second: string; readonly compared: WaysCompared } | null;
  verdict: readonly string[];
  cannotTell: readonly string[];
};

/** Which way of capturing is worth the trouble, from the keeper's own prints. Prints well. */
export function MethodsPage(props: MethodsPageProps) {
  const { aim, ways, pair, unnamed } = props;
  const nameOf = (key: string) => ways.find(({ way }) => way === key)?.name ?? key;
  return (
    <Layout title="Methods compared" section="recapture" collectionName={props.collectionName}>
      <div class="page">
        <header class="page-head">
          <div>
            <h1>Methods compared</h1>
            <p>
              Which way of capturing is worth the trouble, judged by the prints of this collection and the aim for{" "}
              {purposeInSentence(aim.purpose)} (version {aim.version}).
            </p>
          </div>
        </header>
        <Asking {...props} />
        {ways.length === 0 ? (
          <p class="card">No capture says how it was made yet. Name the method or the set-up of captures, and they are compared here.</p>
        ) : (
          <section class="card" aria-labelledby="ways-title">
            <h2 id="ways-title">Each way by itself</h2>
            <WaysTable ways={ways} />
            <p class="soft">
              Not a comparison: each way was used on prints of its own. Time is the median step from one print to the next as the files say
              when they were taken; steps of more than half an hour are pauses. Equipment is the price of the set-ups shared out over the
              prints captured with them; work is not in it.{" "}
              {unnamed > 0
                ? `${capital(counted(unnamed, "capture says", "captures say"))} nothing of how it was made and is left out.`
                : ""}
            </p>
          </section>
        )}
        {pair ? (
          <section class="card" aria-labelledby="pair-title">
            <h2 id="pair-title">
              {nameOf(pair.first)} and {nameOf(pair.second)} on the same prints
            </h2>
            {props.verdict.map((sentence) => (
              <p class="verdict">{sentence}</p>
            ))}
            <h3>What these captures cannot tell</h3>
            <ul class="cannot-tell">
              {props.cannotTell.map((sentence) => (
                <li>{sentence}</li>
              ))}
            </ul>
            {pair.compared.pairs > 0 ? (
              <>
                <GainPlot measures={pair.compared.measures} first={nameOf(pair.first)} second={nameOf(pair.second)} />
                <PairedTable measures={pair.compared.measures} first={nameOf(pair.first)} second={nameOf(pair.second)} />
              </>
            ) : null}
            <p class="small soft">
              Differences are the first way less the second, median over the sides of prints that both captured. Interval: resampling (Efron
              1979). Chance: exact sign test, made honest for the number of measures (Holm 1979); told apart at 5 % where the interval
              agrees.
            </p>
          </section>
        ) : null}
      </div>
    </Layout>
  );
}

function Asking({ purposes, aim, by, ways, pair }: MethodsPageProps) {
  const typed = { purpose: aim.purpose.key, by, first: pair?.first ?? "", second: pair?.second ?? "" };
  const form = { typed, refusals: [] };
  const choices = ways.map(({ way, name }) => ({ value: way, label: name }));
  return (
    <form class="card methods-asking" method="get" action="/methods">
      <div class="field-grid">
        <ChoiceField form={form} name="purpose" label="Purpose" choices={purposes.map(({ key, name }) => ({ value: key, label: name }))} />
        <ChoiceField
          form={form}
          name="by"
          label="Compare"
          choices={[
            { value: "method", label: "Methods" },
            { value: "set-up", label: "Set-ups" },
          ]}
        />
        {choices.length > 1 ? (
          <>
            <ChoiceField form={form} name="first" label="The first" choices={choices} />
            <ChoiceField form={form} name="second" label="Against" choices={choices} />
          </>
        ) : null}
      </div>
      <p class="actions">
        <button class="button" type="submit">
          Compare
        </button>
      </p>
    </form>
  );
}

/** Measures that people ask for first; the pairs show all. */
const SHOWN = ["samplingPpi", "sfr50CyPerMm", "detailCyPerMm", "glareAreaPercent", "keystonePercent", "noiseDeltaL"];

function WaysTable({ ways }: { ways: readonly NamedWay[] }) {
  const shown = SHOWN.filter((measure) => ways.some(({ measures }) => measures.some((each) => each.measure === measure)));
  return (
    <section class="table-frame" aria-label="Ways of capturing, table" tabindex={0}>
      <table class="table table-stacked">
        <thead>
          <tr>
            <th scope="col">Way</th>
            <th scope="col">Prints</th>
            <th scope="col">Captures</th>
            <th scope="col">Meet the aim</th>
            <th scope="col">Time</th>
            <th scope="col">Equipment</th>
            {shown.map((measure) => (
              <th scope="col">{describeMeasure(measure)?.label}</th>
            ))}
          </tr>
        </thead>
        <tbody>
          {ways.map(({ name, prints, captures, meets, minutes, cost, measures }) => (
            <tr>
              <th scope="row">{name}</th>
              <td data-label="Prints">{prints}</td>
              <td data-label="Captures">{captures}</td>
              <td data-label="Meet the aim">
                {meets.count} ({Math.round(meets.lowPercent)} to {Math.round(meets.highPercent)} %)
              </td>
              <td class="ways-effort" data-label="Time">
                {paceInWords(minutes)}
              </td>
              <td class="ways-effort" data-label="Equipment">
                {costInWords(cost)}
              </td>
              {shown.map((measure) => {
                const spread = measures.find((each) => each.measure === measure);
                return (
                  <td data-label={describeMeasure(measure)?.label}>
                    {spread ? (
                      <>
                        {valueInWords(measure, spread.middle)}
                        <span class="small soft ways-spread">
                          {valueInWords(measure, spread.low)} to {valueInWords(measure, spread.high)}, {spread.count} read
                        </span>
                      </>
                    ) : (
                      "not shown"
                    )}
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
