import type { Print } from "#domain/print/print.ts";
import { Layout } from "../parts/layout.tsx";
import { Moment } from "../parts/moment.tsx";
import { DoneNotice } from "../parts/notice.tsx";

/** Prints that were deleted, each with the way back. */
export const BinPage = (props: { collectionName: string; prints: readonly Print[]; done?: string }) => (
  <Layout title="Bin" section="prints" collectionName={props.collectionName}>
    <div class="page">
      <header class="page-head">
        <div>
          <h1>Bin</h1>
          <p>Deleted prints wait here with their captures. Their numbers stay taken.</p>
        </div>
        <a href="/prints">Back to the prints</a>
      </header>
      <DoneNotice done={props.done} />
      {props.prints.length === 0 ? (
        <p class="card">The bin is empty.</p>
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
    </div>
  </Layout>
);
