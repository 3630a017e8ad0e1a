import type { Refusal } from "#domain/outcome.ts";
import { isNarrowed, type PrintFilter } from "#domain/print/print-filter.ts";
import type { PlaceNode } from "#domain/storage/place-tree.ts";
import { counted } from "../format/counted.ts";
import { ContactSheet } from "../parts/contact-sheet.tsx";
import { FilterProblems } from "../parts/filter-problems.tsx";
import { Layout } from "../parts/layout.tsx";
import { DoneNotice } from "../parts/notice.tsx";
import { Paging } from "../parts/paging.tsx";
import { NarrowedBy, PrintFilterForm } from "../parts/print-filter-form.tsx";
import { PrintTable, type ShownPrint } from "../parts/print-table.tsx";
import { type PrintsView, printsAddress } from "../parts/prints-address.ts";
import { labelsAddress } from "./labels.tsx";

export type PrintsPageProps = {
  collectionName: string;
  filter: PrintFilter;
  problems: readonly Refusal[];
  view: PrintsView;
  rows: readonly ShownPrint[];
  total: number;
  places: readonly PlaceNode[];
  done?: string;
};

/** The collection's prints, as a table or as a contact sheet. */
export function PrintsPage(props: PrintsPageProps) {
  const isEmptyCollection = props.total === 0 && !isNarrowed(props.filter);
  return (
    <Layout title="Prints" section="prints" collectionName={props.collectionName}>
      <div class="page">
        <header class="page-head">
          <h1>Prints</h1>
          <p class="actions">
            <a class="button button-quiet" href={labelsAddress({ ...props.filter, page: 1 })}>
              Labels
            </a>
            <a class="button button-quiet" href="/bin">
              Bin
            </a>
            <a class="button" href="/prints/new">
              New print
            </a>
          </p>
        </header>
        <DoneNotice done={props.done} />
        {isEmptyCollection ? (
          <FirstPrint />
        ) : (
          <>
            <PrintFilterForm filter={props.filter} view={props.view} places={props.places} problems={props.problems} />
            <PrintList {...props} />
          </>
        )}
      </div>
    </Layout>
  );
}

/** The part that changes in place while somebody types into the search. */
function PrintList({ filter, problems, view, rows, total, places }: PrintsPageProps) {
  return (
    <section id="print-list" class="print-list" aria-label="Prints found">
      <FilterProblems problems={problems} />
      <div class="print-list-head">
        <p role="status">
          <strong>{isNarrowed(filter) ? counted(total, "print found", "prints found") : counted(total, "print", "prints")}</strong>
          {span(filter, rows.length, total)}
        </p>
        <NarrowedBy filter={filter} view={view} places={places} />
        <ViewSwitch filter={filter} view={view} />
      </div>
      {rows.length === 0 ? (
        <NothingFound filter={filter} view={view} total={total} />
      ) : view === "sheet" ? (
        <ContactSheet rows={rows} />
      ) : (
        <PrintTable rows={rows} filter={filter} />
      )}
      {filter.perPage === null ? null : (
        <Paging page={filter.page} perPage={filter.perPage} total={total} href={(page) => printsAddress({ ...filter, page }, view)} />
      )}
    </section>
  );
}

function ViewSwitch({ filter, view }: { filter: PrintFilter; view: PrintsView }) {
  return (
    <nav class="switch" aria-label="Show as">
      <a href={printsAddress(filter, "table")} aria-current={view === "table" ? "true" : undefined}>
        Table
      </a>
      <a href={printsAddress(filter, "sheet")} aria-current={view === "sheet" ? "true" : undefined}>
        Contact sheet
      </a>
    </nav>
  );
}

function NothingFound({ filter, view, total }: { filter: PrintFilter; view: PrintsView; total: number }) {
  return total > 0 ? (
    <p class="card">
      There is no page {filter.page}. <a href={printsAddress({ ...filter, page: 1 }, view)}>Go to the first page</a>
    </p>
  ) : (
    <div class="card">
      <p class="lead">No print fits all of this.</p>
      <p>
        Take away a word or a limit, or <a href={view === "sheet" ? "/prints?view=sheet" : "/prints"}>show all prints</a>. A print that was
        deleted is in the <a href="/bin">bin</a>.
      </p>
    </div>
  );
}

const FirstPrint = () => (
  <div class="card page-narrow">
    <p class="lead">No print has been entered yet.</p>
    <p>
      A print is one physical photograph. Give it a number and a title; everything else can wait. Its pictures are added afterwards, from
      any phone, scanner or camera.
    </p>
    <p class="actions">
      <a class="button" href="/prints/new">
        Enter the first print
      </a>
      <a href="/places">or say first where prints are kept</a>
    </p>
  </div>
);

function span({ page, perPage }: PrintFilter, shown: number, total: number): string {
  if (perPage === null || total <= perPage || shown === 0) return "";
  const first = (page - 1) * perPage + 1;
  return `, ${first} to ${first + shown - 1} shown`;
}
