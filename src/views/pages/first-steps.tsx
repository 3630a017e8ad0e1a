import type { Child } from "hono/jsx";
import { Layout } from "../parts/layout.tsx";
import { DoneNotice } from "../parts/notice.tsx";

export type FirstStepsProps = {
  collectionName: string;
  nextNumber: string;
  /** false while the collection still carries the name it was made with */
  isNamed: boolean;
  firstPrint: { readonly id: number; readonly objectNumber: string } | null;
  done?: string;
};

/** What an empty collection shows: four steps, from its name to the first master. */
export const FirstStepsPage = (props: FirstStepsProps) => (
  <Layout title="First steps" section="overview" collectionName={props.collectionName}>
    <div class="page page-narrow">
      <header class="page-head">
        <div>
          <h1>First steps</h1>
          <p>Four steps from an empty box to the first print whose best picture is known.</p>
        </div>
      </header>
      <DoneNotice done={props.done} />
      <ol class="steps">
        <Step isDone={props.isNamed} title="Name the collection">
          <p>
            It is called {props.collectionName} so far, and would number its next print{" "}
            <span class="object-number">{props.nextNumber}</span>. Both can be changed at any time.
          </p>
          <p class="actions">
            <a class={props.isNamed ? "button button-quiet" : "button"} href="/collection">
              Name and numbering
            </a>
          </p>
        </Step>
        <Step isDone={props.firstPrint !== null} title="Catalogue the first print">
          <p>One physical photograph. Number and title are enough; its format lets the program read true sizes from the pictures.</p>
          <p class="actions">
            {props.firstPrint ? (
              <a href={`/prints/${props.firstPrint.id}`}>{props.firstPrint.objectNumber} is catalogued</a>
            ) : (
              <a class="button" href="/prints/new">
                New print
              </a>
            )}
          </p>
        </Step>
        <Step isDone={false} title="Add its captures">
          <p>
            Pictures of it, from a phone, a scanner or a camera. Add all there are: the more captures of one print, the more can be told
            apart. With file names that begin with the object number, each finds its print by itself.
          </p>
          <p class="actions">
            <a
              class={props.firstPrint ? "button" : "button button-quiet"}
              href={props.firstPrint ? `/add?print=${encodeURIComponent(props.firstPrint.objectNumber)}` : "/add"}
            >
              Add captures
            </a>
          </p>
        </Step>
        <Step isDone={false} title="See its measures and its master">
          <p>
            Every capture is measured from its own pixels. The print's page then shows them side by side, which one to trust for which
            purpose, and why. You can always decide otherwise.
          </p>
        </Step>
      </ol>
    </div>
  </Layout>
);

const Step = (props: { isDone: boolean; title: string; children?: Child }) => (
  <li class={props.isDone ? "card step step-done" : "card step"}>
    <h2>
      {props.title}
      {props.isDone ? <span class="step-state"> done</span> : null}
    </h2>
    {props.children}
  </li>
);
