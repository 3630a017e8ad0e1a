import { surenessInWords } from "#domain/master/doubt-in-words.ts";
import { Layout } from "../parts/layout.tsx";
import { DoneNotice } from "../parts/notice.tsx";
import { Proposed, type ShownProposal } from "../parts/proposed.tsx";

type OfPrint = {
  readonly print: { readonly id: number; readonly objectNumber: string; readonly title: string };
  readonly side: "front" | "back";
  readonly purpose: { readonly key: string; readonly name: string };
};

export type ShownCloseChoice = OfPrint & {
  readonly id: number;
  readonly sentence: string;
  readonly sureness: number | null;
  readonly hasMaster: boolean;
  readonly hasTwo: boolean;
  readonly eyeDiffers: boolean;
};

export type ChoicesPageProps = {
  collectionName: string;
  proposals: readonly (ShownProposal & OfPrint)[];
  close: readonly ShownCloseChoice[];
  counts: { readonly proposals: number; readonly close: number };
  done?: string;
};

/** Choices that wait for a person: what is proposed, and what is too close to call. */
export const ChoicesPage = ({ collectionName, proposals, close, counts, done }: ChoicesPageProps) => (
  <Layout title="Choices to look at" section={null} collectionName={collectionName}>
    <div class="page">
      <header class="page-head">
        <div>
          <h1>Choices to look at</h1>
          <p>Where a later capture would take the place of one that you chose, and where the readings are too close to call.</p>
        </div>
      </header>
      <DoneNotice done={done} />
      {counts.proposals + counts.close === 0 ? <p class="card">Nothing waits: no capture is proposed, and every choice is clear.</p> : null}
      {proposals.length > 0 ? (
        <section class="stack" aria-labelledby="proposed-title">
          <h2 id="proposed-title">Proposed ({counts.proposals})</h2>
          <ul class="choices-to-see">
            {proposals.map((proposal) => (
              <li class="card">
                <Title {...proposal} />
                <Proposed printId={proposal.print.id} proposal={proposal} from="choices" />
              </li>
            ))}
          </ul>
          <More all={counts.proposals} shown={proposals.length} />
        </section>
      ) : null}
      {close.length > 0 ? (
        <section class="stack" aria-labelledby="close-title">
          <h2 id="close-title">Too close to call ({counts.close})</h2>
          <p>
            The rule's answer stands meanwhile. Look at the captures, and decide by hand on the print's page where you see more than the
            measures.
          </p>
          <ul class="choices-to-see">
            {close.map((choice) => (
              <li class="card">
                <Title {...choice} />
                <p>{choice.sentence}</p>
                <p class="small soft">
                  {surenessInWords({ sureness: choice.sureness, closeCall: true, decidedByBound: false }, choice.hasMaster)}
                </p>
                {choice.eyeDiffers ? <p>By eye, blind, the other one was found better. Decide on the print's page.</p> : null}
                {choice.hasTwo && !choice.eyeDiffers ? (
                  <form method="post" action="/eye">
                    <input type="hidden" name="purposeKey" value={choice.purpose.key} />
                    <input type="hidden" name="choiceId" value={String(choice.id)} />
                    <button class="button button-quiet button-small" type="submit">
                      Compare the two by eye, blind
                    </button>
                  </form>
                ) : null}
              </li>
            ))}
          </ul>
          <More all={counts.close} shown={close.length} />
        </section>
      ) : null}
    </div>
  </Layout>
);

const Title = ({ print, side, purpose }: OfPrint) => (
  <h3>
    <a href={`/prints/${print.id}#master-${side}-${purpose.key}`}>
      <span class="object-number">{print.objectNumber}</span> {print.title}
    </a>
    <span class="second-line">
      {purpose.name}
      {side === "back" ? ", back" : ""}
    </span>
  </h3>
);

const More = ({ all, shown }: { all: number; shown: number }) =>
  all > shown ? <p class="small soft">And {all - shown} more, which come up as these are done.</p> : null;
