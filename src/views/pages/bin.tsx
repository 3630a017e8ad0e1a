import type { Side } from "#domain/capture/capture.ts";
import type { Print } from "#domain/print/print.ts";
import { FileName } from "../parts/file-name.tsx";
import { Layout } from "../parts/layout.tsx";
import { Moment } from "../parts/moment.tsx";
import { DoneNotice } from "../parts/notice.tsx";
import { type ShownPutAway, TakeBack } from "../parts/put-away.tsx";

type BinnedCapture = ShownPutAway & {
  readonly name: string;
  readonly side: Side;
  readonly print: { readonly objectNumber: string; readonly title: string } | null;
};
type BinPageProps = { collectionName: string; prints: readonly Print[]; captures: readonly BinnedCapture[]; done?: string };

/** Prints that were deleted and captures that were put away, each with the way back. */
export const BinPage = (props: BinPageProps) => (
  <Layout title="Bin" section="prints" collectionName={props.collectionName}>
    <div class="page">
      <header class="page-head">
        <div>
          <h1>Bin</h1>
          <p>Deleted prints wait here with their captures, and their numbers stay taken. So do captures that were put away.</p>
        </div>
        <a href="/prints">Back to the prints</a>
      </header>
      <DoneNotice done={props.done} />
      {props.prints.length === 0 ? (
        <p class="card">No print lies in the bin.</p>
      ) : (
        <div class="table-frame">
          <table class="table">
            <caption class="visually-hidden">Prints in the bin</caption>
            <thead>
              <tr>
                <th scope="col">Number</th>
                <th scope="col">Title</th>
                <th scope="col">
                  <span class="visually-hidden">Restore</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {props.prints.map((print) => (
                <tr>
                  <th scope="row" class="object-number">
                    {print.objectNumber}
                  </th>
                  <td>
                    {print.title === "" ? <span class="soft">Untitled</span> : print.title}
                    {print.binnedAt === null ? null : (
                      <span class="second-line">
                        binned <Moment at={print.binnedAt} />
                      </span>
                    )}
                  </td>
                  <td>
                    <form method="post" action={`/bin/${print.id}/restore`}>
                      <button class="button button-quiet button-small" type="submit">
                        Restore<span class="visually-hidden"> {print.objectNumber}</span>
                      </button>
                    </form>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {props.captures.length === 0 ? null : <PutAwayCaptures captures={props.captures} />}
    </div>
  </Layout>
);

const PutAwayCaptures = ({ captures }: { captures: readonly BinnedCapture[] }) => (
  <section class="stack" aria-labelledby="put-away-title">
    <h2 id="put-away-title">Captures put away</h2>
    <div class="table-frame">
      <table class="table">
        <caption class="visually-hidden">Captures that were put away</caption>
        <thead>
          <tr>
            <th scope="col">Capture</th>
            <th scope="col">Why</th>
            <th scope="col">
              <span class="visually-hidden">Take back</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {captures.map((capture) => (
            <tr>
              <th scope="row">
                <a href={`/captures/${capture.captureId}`}>
                  <FileName name={capture.name} />
                </a>
                <span class="second-line">
                  {capture.print ? `${capture.side} of ${capture.print.objectNumber} ${capture.print.title}` : "without a print"}
                </span>
              </th>
              <td>
                {capture.reason}
                <span class="second-line">
                  <Moment at={capture.at} />, {capture.who ?? "nobody named"}
                </span>
              </td>
              <td>
                <TakeBack captureId={capture.captureId} name={capture.name} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  </section>
);
