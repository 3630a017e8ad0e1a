import { type Aim, type Purpose, purposeInSentence } from "#domain/aim/aim.ts";
import type { WaysCompared } from "#domain/methods/compare-ways.ts";
import { leftOutInWords, type WaysBy } from "#domain/methods/way.ts";
import { capital } from "#domain/sentence.ts";
import { ChoiceField } from "../parts/field.tsx";
import { GainPlot, PairedTable } from "../parts/gain-plot.tsx";
import { Layout } from "../parts/layout.tsx";
import { EveryMeasure, type NamedWay, WaysTable } from "../parts/ways-table.tsx";

export type MethodsPageProps = {
  collectionName: string;
  purposes: readonly Purpose[];
  aim: Aim;
  by: WaysBy;
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
          <p class="card">
            {props.by === "method" ? "No capture says how it was made yet." : "No capture names a set-up yet."} Name the method, or one of
            your <a href="/set-ups">set-ups</a>, when you <a href="/add">add captures</a> or on a capture's own page, and they are compared
            here.
          </p>
        ) : (
          <section class="card" aria-labelledby="ways-title">
            <h2 id="ways-title">Each way by itself</h2>
            <WaysTable ways={ways} />
            <EveryMeasure ways={ways} />
            <p class="soft">
              Not a comparison: each way was used on prints of its own. Time is the median step from one print to the next as the files say
              when they were taken; steps of more than half an hour are pauses. Equipment is the price of the set-ups shared out over the
              prints captured with them; work is not in it.{" "}
              {unnamed > 0 ? `${capital(leftOutInWords(unnamed, props.by))} and ${unnamed === 1 ? "is" : "are"} left out.` : ""}
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
                <details open data-fold-on-phone>
                  <summary>Measure by measure, in figures</summary>
                  <PairedTable measures={pair.compared.measures} first={nameOf(pair.first)} second={nameOf(pair.second)} />
                </details>
              </>
            ) : null}
            <p class="small soft">
              Differences are the first way less the second, over the sides of prints that both captured. Interval of their median:
              resampling (Efron 1979); with few pairs it is somewhat narrower than 95 % (of seven pairs it holds the true median in 7 of 8
              cases). Chance: exact sign test, made honest for the number of measures (Holm 1979); told apart at 5 % where the interval
              agrees. Whether more prints meet every requirement is a question of its own (McNemar, exact) and is not among those measures.
            </p>
          </section>
        ) : null}
        <script src="/assets/fold-on-phone.js"></script>
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
