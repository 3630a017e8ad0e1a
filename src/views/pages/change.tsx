import type { Side } from "#domain/capture/capture.ts";
import { METHOD_LABELS } from "#domain/capture/method.ts";
import type { Change } from "#domain/condition/change/change-between.ts";
import { CHANGES } from "#domain/condition/change/change-names.ts";
import { QUALIFICATION_LABELS, TRUENESS } from "#domain/condition/change/qualification.ts";
import type { Print } from "#domain/print/print.ts";
import { asSentence } from "#domain/sentence.ts";
import { ChangeMap } from "../parts/change-map.tsx";
import { ChangeNumbers } from "../parts/change-numbers.tsx";
import type { CaptureWithOriginalFacts } from "../parts/change-years.tsx";
import { ChangeYears, type DatedChange, dayOf } from "../parts/change-years.tsx";
import { ChoiceField } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";
import { Notice } from "../parts/notice.tsx";

export type { DatedChange } from "../parts/change-years.tsx";

export type ChangePageProps = {
  collectionName: string;
  print: Print;
  /** those that have captures */
  sides: readonly Side[];
  side: Side;
  /** of the side, oldest first */
  captures: readonly CaptureWithOriginalFacts[];
  olderId: number | null;
  newerId: number | null;
  /** one capture was asked for twice */
  isSame: boolean;
  /** null: none were asked for yet */
  held: Change | { readonly refused: string } | null;
  /** every dated capture against the first */
  series: readonly DatedChange[];
};

/** How a print changed between two of its captures, and how sure that is. */
export function ChangePage(props: ChangePageProps) {
  const { print, captures, held, isSame } = props;
  const [older, newer] = [captures.find(({ id }) => id === props.olderId), captures.find(({ id }) => id === props.newerId)];
  return (
    <Layout title={`Change of ${print.objectNumber}`} section="prints" collectionName={props.collectionName} scripts={["wipe.js"]}>
      <div class="page">
        <header class="page-head">
          <div>
            <p class="object-number">
              <a href={`/prints/${print.id}`}>{print.objectNumber}</a>
            </p>
            <h1>Change over time</h1>
          </div>
        </header>
        {captures.length < 2 ? (
          <p>Change is told by two captures of one side of the print; there are not two yet.</p>
        ) : (
          <PairForm {...props} />
        )}
        {isSame ? (
          <Notice level="notice" title="These are one capture">
            <p>Choose two different ones.</p>
          </Notice>
        ) : null}
        {held && "refused" in held ? (
          <Notice level="notice" title="These two cannot be held against each other">
            <p>{asSentence(held.refused)}</p>
          </Notice>
        ) : null}
        {held && !("refused" in held) && older && newer ? (
          <Held change={held} older={older} newer={newer} print={print} series={props.series} />
        ) : null}
      </div>
    </Layout>
  );
}

function PairForm({ print, sides, side, captures, olderId, newerId }: ChangePageProps) {
  const form = { typed: { side, older: String(olderId ?? ""), newer: String(newerId ?? "") }, refusals: [] };
  const choices = captures.map((capture) => ({ value: String(capture.id), label: inWords(capture) }));
  return (
    <section class="card" aria-labelledby="pair-title">
      <h2 id="pair-title">Two captures{sides.length > 1 ? ` of the ${side}` : ""}</h2>
      {sides.length > 1 ? (
        <p>
          {sides
            .filter((each) => each !== side)
            .map((each) => (
              <a href={`/prints/${print.id}/change?side=${each}`}>Captures of the {each} instead</a>
            ))}
        </p>
      ) : null}
      <form class="change-pair" method="get" action={`/prints/${print.id}/change`}>
        <input type="hidden" name="side" value={side} />
        <div class="fields">
          <ChoiceField form={form} name="older" label="Older" choices={choices} />
          <ChoiceField form={form} name="newer" label="Newer" choices={choices} />
        </div>
        <p class="hint">The first time, comparing takes some seconds.</p>
        <p class="actions">
          <button class="button" type="submit">
            Compare
          </button>
        </p>
      </form>
    </section>
  );
}

type HeldProps = {
  change: Change;
  older: CaptureWithOriginalFacts;
  newer: CaptureWithOriginalFacts;
  print: Print;
  series: readonly DatedChange[];
};

function Held({ change, older, newer, print, series }: HeldProps) {
  const pictures = `/prints/${print.id}/change/${older.id}/${newer.id}`;
  return (
    <>
      <section class="card" aria-labelledby="result-title">
        <h2 id="result-title">What the two tell</h2>
        <Result change={change} />
      </section>
      <section class="change-section" aria-labelledby="look-title">
        <h2 id="look-title">Before and after</h2>
        <div class="wipe" data-wipe>
          <figure>
            <img src={`${pictures}/older.jpg`} alt={`Older: ${inWords(older)}`} />
            <figcaption>Older: {dayOf(older)}</figcaption>
          </figure>
          <figure>
            <img src={`${pictures}/newer.jpg`} alt={`Newer: ${inWords(newer)}, laid on the older one`} />
            <figcaption>Newer: {dayOf(newer)}</figcaption>
          </figure>
        </div>
        <p class="hint">
          Both lie on the grid of the sheet's own millimetres; where detail could be followed they agree within{" "}
          {Math.max(0.01, change.residual95Mm).toFixed(2)} mm.
        </p>
      </section>
      <section class="change-section" aria-labelledby="map-title">
        <h2 id="map-title">New or altered places</h2>
        <ChangeMap change={change} picture={`${pictures}/newer.jpg`} />
      </section>
      <section class="change-section" aria-labelledby="numbers-title">
        <h2 id="numbers-title">The print as a whole</h2>
        <ChangeNumbers change={change} />
        <Assumed qualifications={change.qualifications} />
      </section>
      <section class="change-section" aria-labelledby="years-title">
        <h2 id="years-title">Over the years</h2>
        <ChangeYears printId={print.id} series={series} />
      </section>
    </>
  );
}

function Result({ change }: { change: Change }) {
  const of = (verdict: string) => change.numbers.filter((number) => "verdict" in number && number.verdict === verdict);
  const changed = of("changed").map(({ name }) => CHANGES[name].label.toLowerCase());
  if (Object.values(change.qualifications).includes("unknown"))
    return (
      <p>
        Indication only: it is not known how one of the captures was taken. Say its method on its page, and the figures below can be judged.
      </p>
    );
  return (
    <>
      <p>
        {changed.length === 0
          ? "No number differs by more than the two captures can tell."
          : `Changed beyond what the captures themselves may be off: ${changed.join("; ")}.`}
      </p>
      <p>
        {change.structures.length === 0
          ? "No new or altered place was found."
          : `New or altered places: ${change.structures.length + change.untoldStructures}.`}
      </p>
    </>
  );
}

/** The figures that the uncertainties rest on. */
function Assumed({ qualifications }: Pick<Change, "qualifications">) {
  return (
    <details>
      <summary>What the uncertainties rest on</summary>
      <p>
        Each is an expanded uncertainty, k = 2 (JCGM 100:2008): the captures' own noise, how exactly they lie on each other, how unlike the
        quarters of the sheet are, and how far tones and colours may be off by the way each capture was taken:
      </p>
      <ul>
        {[qualifications.older, qualifications.newer].map((qualification, index) => {
          const { lightness, colour, besideBorder, source } = TRUENESS[qualification];
          return (
            <li>
              {index === 0 ? "Older" : "Newer"}: {QUALIFICATION_LABELS[qualification]}, within {lightness} L* and {colour} in the plane of
              a* and b*, within {besideBorder} L* beside its own border ({source}).
            </li>
          );
        })}
      </ul>
      <p>
        Densities are read in red, green and blue light of the sRGB primaries, not as Status A densities (ISO 5-3). The outermost 0.8 mm of
        sheet and picture are left out.
      </p>
    </details>
  );
}

const inWords = (capture: CaptureWithOriginalFacts): string =>
  `${dayOf(capture)}, ${capture.method ? METHOD_LABELS[capture.method] : "method not known"}, ${capture.name}`;
