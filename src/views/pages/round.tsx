import { GRADE_WORDS, type Grade } from "#domain/condition/grade.ts";
import type { Round, RoundCounts, RoundResult } from "#domain/condition/round.ts";
import { INTERVAL_SOURCE, SAMPLE_SIZE_SOURCE } from "#domain/condition/sampling.ts";
import { counted } from "../format/counted.ts";
import { Layout } from "../parts/layout.tsx";
import { DoneNotice } from "../parts/notice.tsx";

type Line = {
  readonly printId: number;
  readonly objectNumber: string;
  readonly title: string;
  readonly surveyId: number | null;
  readonly passedAt: string | null;
  readonly grade: Grade | null;
};

export type RoundPageProps = {
  collectionName: string;
  round: Round & RoundCounts;
  lines: readonly Line[];
  /** of a sample of which something was looked at */
  result: RoundResult | null;
  done?: string;
};

/** How far a round has come, and what a sample says of all the prints it was drawn from. */
export function RoundPage({ collectionName, round, lines, result, done }: RoundPageProps) {
  const left = round.all - round.looked;
  return (
    <Layout title={round.name} section="condition" collectionName={collectionName}>
      <div class="page">
        <header class="page-head">
          <div>
            <p>
              <a href="/rounds">Look at many prints</a>
            </p>
            <h1>{round.name}</h1>
            <p>
              {round.looked} of {counted(round.all, "print", "prints")} looked at
              {round.passed > 0 ? `, ${round.passed} left for later` : ""}.
            </p>
          </div>
          {left > 0 ? (
            <p class="actions">
              <a class="button" href={`/rounds/${round.id}/look`}>
                {round.looked > 0 ? "Go on" : "Begin"}
              </a>
            </p>
          ) : null}
        </header>
        <DoneNotice done={done} />
        {round.sample ? <Sample round={round} sample={round.sample} result={result} left={left} /> : null}
        <section class="card" aria-labelledby="prints-title">
          <h2 id="prints-title">The prints</h2>
          <ol class="round-prints">
            {lines.map((line) => (
              <li>
                <a class="object-number" href={`/prints/${line.printId}`}>
                  {line.objectNumber}
                </a>{" "}
                {line.title === "" ? "Untitled" : line.title} <span class="soft">{stateInWords(line)}</span>
              </li>
            ))}
          </ol>
        </section>
      </div>
    </Layout>
  );
}

type SampleProps = { round: Round & RoundCounts; sample: NonNullable<Round["sample"]>; result: RoundResult | null; left: number };

function Sample({ round, sample, result, left }: SampleProps) {
  return (
    <section class="card stack" aria-labelledby="sample-title">
      <h2 id="sample-title">The sample</h2>
      <p>
        {round.all} of {counted(sample.population, "print", "prints")}, drawn with the seed {sample.seed} from the list by object number, so
        that a share is known to within {sample.marginPercent} points at {sample.confidencePercent} % ({sample.expectedPercent} % expected).
      </p>
      {result ? (
        <>
          {left > 0 ? (
            <p>
              Not final: {left} are still to be looked at, and those looked at so far stand next to each other on the shelves; they are no
              sample drawn by chance.
            </p>
          ) : null}
          <section class="table-frame" aria-label="What the sample says" tabindex={0}>
            <table class="table">
              <caption>
                Of {counted(result.looked, "print", "prints")} looked at, and what that says of all {sample.population}
              </caption>
              <thead>
                <tr>
                  <th scope="col">Found</th>
                  <th scope="col">Prints</th>
                  <th scope="col">Share</th>
                  <th scope="col">{`Interval, ${sample.confidencePercent} %`}</th>
                  <th scope="col">Of all, about</th>
                </tr>
              </thead>
              <tbody>
                {result.shares.map(({ what, seen, share }) => (
                  <tr>
                    <th scope="row">{what}</th>
                    <td>{seen}</td>
                    <td>{perCent(share.percent)}</td>
                    <td>
                      {perCent(share.lowPercent)} to {perCent(share.highPercent)}
                    </td>
                    <td>
                      {atLeast(seen, (share.lowPercent * sample.population) / 100)} to{" "}
                      {Math.floor((share.highPercent * sample.population) / 100 + 1e-9)}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
        </>
      ) : (
        <p>Nothing of it has been looked at yet.</p>
      )}
      <p class="small soft">
        How many: {SAMPLE_SIZE_SOURCE}. The interval: {INTERVAL_SOURCE}.
      </p>
    </section>
  );
}

const perCent = (value: number): string => `${value.toFixed(1)} %`;

/** What was seen is there for certain. */
const atLeast = (seen: number, low: number): number => Math.max(seen, Math.ceil(low - 1e-9));

function stateInWords({ surveyId, passedAt, grade }: Line): string {
  if (surveyId !== null) return grade ? GRADE_WORDS[grade].toLowerCase() : "looked at";
  return passedAt === null ? "waits" : "left for later";
}
