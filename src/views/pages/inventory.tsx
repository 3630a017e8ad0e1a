import type { InventoryRow } from "#domain/inventory/inventory-row.ts";
import type { Refusal } from "#domain/outcome.ts";
import { type PrintFilter, printFilterQuery } from "#domain/print/print-filter.ts";
import { type PlaceNode, pathInWords } from "#domain/storage/place-tree.ts";
import { counted } from "../format/counted.ts";
import { FilterProblems } from "../parts/filter-problems.tsx";
import { Layout } from "../parts/layout.tsx";
import { NoPrint } from "../parts/no-print.tsx";
import { Paging } from "../parts/paging.tsx";
import { PrintDate } from "../parts/print-date.tsx";
import { PrintFilterForm } from "../parts/print-filter-form.tsx";

export type InventoryPageProps = {
  collectionName: string;
  filter: PrintFilter;
  problems: readonly Refusal[];
  places: readonly PlaceNode[];
  /** one page of what the filter means */
  rows: readonly InventoryRow[];
  /** how many rows the file would have */
  total: number;
  /** counted from 1 */
  page: number;
  perPage: number;
};

/** The list that is handed over: what it would hold, and the file itself. */
export const InventoryPage = (props: InventoryPageProps) => (
  <Layout title="Inventory" section="inventory" collectionName={props.collectionName}>
    <div class="page">
      <header class="page-head">
        <div>
          <h1>Inventory</h1>
          <p>Every print with its record, place, cautions and the files that stand for it, as a list to hand over.</p>
        </div>
      </header>
      <PrintFilterForm
        filter={props.filter}
        view="table"
        places={props.places}
        problems={props.problems}
        action="/inventory"
        results="inventory"
      />
      <Preview {...props} />
    </div>
  </Layout>
);

const Preview = ({ filter, problems, rows, total, page, perPage }: InventoryPageProps) => (
  <section id="inventory" class="print-list" aria-label="What the list holds">
    <FilterProblems problems={problems} />
    <div class="print-list-head">
      <p role="status">
        <strong>{counted(total, "print", "prints")}</strong>
        {total > rows.length ? `, ${(page - 1) * perPage + 1} to ${(page - 1) * perPage + rows.length} shown; the file holds all` : ""}
      </p>
      {total > 0 ? (
        <span class="actions">
          <a class="button" href={csvAddress(filter)} download>
            Download as CSV
          </a>
          <a class="button button-quiet" href={csvAddress(filter, true)} download>
            For a spreadsheet
          </a>
        </span>
      ) : null}
    </div>
    {total > 0 ? (
      <p class="small soft">
        The plain file follows RFC 4180 and changes nothing. The one for a spreadsheet marks its letters as UTF-8 and puts an apostrophe
        before cells that the spreadsheet would run as a formula.
      </p>
    ) : null}
    {rows.length === 0 ? <NoPrint filter={filter} words="No print fits all of this." /> : <Rows rows={rows} />}
    <Paging page={page} perPage={perPage} total={total} href={(to) => inventoryAddress(filter, to)} />
  </section>
);

const Rows = ({ rows }: { rows: readonly InventoryRow[] }) => (
  <section class="table-frame" aria-label="Rows" tabindex={0}>
    <table class="table inventory-table">
      <caption class="visually-hidden">Rows of the inventory</caption>
      <thead>
        <tr>
          <th scope="col">Number</th>
          <th scope="col">Title</th>
          <th scope="col">Date</th>
          <th scope="col">Process and format</th>
          <th scope="col">Place</th>
          <th scope="col">Cautions</th>
          <th scope="col" class="number">
            Captures
          </th>
          <th scope="col">Masters</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <Row row={row} />
        ))}
      </tbody>
    </table>
  </section>
);

const Row = ({ row }: { row: InventoryRow }) => (
  <tr>
    <th scope="row">
      <a class="object-number" href={`/prints/${row.print.id}`}>
        {row.print.objectNumber}
      </a>
    </th>
    <td>{row.print.title}</td>
    <td>
      <PrintDate date={row.print.date} />
    </td>
    <td>
      {row.processName}
      {row.formatName ? <span class="second-line">{row.formatName}</span> : null}
    </td>
    <td>{row.placePath.length === 0 ? <span class="soft">not known</span> : pathInWords(row.placePath)}</td>
    <td>
      {row.cautions[0]}
      {row.cautions.length > 1 ? <span class="second-line">and {row.cautions.length - 1} more</span> : null}
    </td>
    <td class="number">{row.captureCount}</td>
    <td>
      {row.masters.map((master) => (
        <span class="second-line">
          {master.side === "back" ? "Back, " : ""}
          {master.purposeName}: {master.file ? master.file.fileName : "none good enough"}
        </span>
      ))}
    </td>
  </tr>
);

function inventoryAddress(filter: PrintFilter, page: number): string {
  const query = new URLSearchParams(printFilterQuery({ ...filter, page }));
  return query.size === 0 ? "/inventory" : `/inventory?${query}`;
}

/** The file of exactly what the filter means: all of it, whatever page is shown. */
function csvAddress(filter: PrintFilter, forSpreadsheet = false): string {
  const query = new URLSearchParams(printFilterQuery({ ...filter, page: 1 }));
  if (forSpreadsheet) query.set("spreadsheet", "yes");
  return query.size === 0 ? "/inventory.csv" : `/inventory.csv?${query}`;
}
