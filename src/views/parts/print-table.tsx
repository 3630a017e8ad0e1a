import { sheetSize } from "#domain/print/dimensions.ts";
import { findFormat } from "#domain/print/format.ts";
import type { Print } from "#domain/print/print.ts";
import type { PrintFilter, PrintSort } from "#domain/print/print-filter.ts";
import { findProcess } from "#domain/print/process.ts";
import { pathInWords } from "#domain/storage/place-tree.ts";
import { sizeInMm } from "../format/millimetres.ts";
import { PrintDate } from "./print-date.tsx";
import { PrintThumbnail } from "./print-thumbnail.tsx";
import { printsAddress } from "./prints-address.ts";

export type ShownPrint = Print & {
  readonly captureCount: number;
  /** the capture to show, or null where there is none */
  readonly captureId: number | null;
  /** names from the outermost place inwards; empty where no place is known */
  readonly placePath: readonly string[];
};

/** One row a print. On a narrow screen each row becomes a card: see print-table.css. */
export const PrintTable = ({ rows, filter }: { rows: readonly ShownPrint[]; filter: PrintFilter }) => (
  <div class="table-frame">
    <table class="table print-table">
      <caption class="visually-hidden">Prints, one a row</caption>
      <thead>
        <tr>
          <th scope="col">
            <span class="visually-hidden">Picture</span>
          </th>
          <SortedColumn filter={filter} sort="number" label="Number" />
          <SortedColumn filter={filter} sort="title" label="Title" />
          <SortedColumn filter={filter} sort="date" label="Date" />
          <th scope="col">Process and format</th>
          <th scope="col">Place</th>
          <th scope="col" class="number">
            Captures
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map((print) => (
          <PrintRow print={print} />
        ))}
      </tbody>
    </table>
  </div>
);

const PrintRow = ({ print }: { print: ShownPrint }) => (
  <tr>
    <td class="cell-picture">
      <PrintThumbnail captureId={print.captureId} title="" />
    </td>
    <th scope="row" class="cell-number">
      <a class="object-number" href={`/prints/${print.id}`}>
        {print.objectNumber}
      </a>
    </th>
    <td class="cell-title">{print.title === "" ? <span class="soft">Untitled</span> : print.title}</td>
    <td class="cell-date">
      <PrintDate date={print.date} />
    </td>
    <td class="cell-process">
      <Process print={print} />
    </td>
    <td class="cell-place">{print.placePath.length === 0 ? <span class="soft">not known</span> : pathInWords(print.placePath)}</td>
    <td class="cell-captures number">{print.captureCount === 0 ? <span class="mark-none">none</span> : print.captureCount}</td>
  </tr>
);

function Process({ print }: { print: ShownPrint }) {
  const process = findProcess(print.processId)?.name ?? print.processId;
  const format = print.formatId === null ? null : (findFormat(print.formatId)?.name ?? print.formatId);
  const size = sheetSize(print);
  return (
    <>
      {process}
      <span class="second-line">
        {[format, size ? `${sizeInMm(size.widthMm, size.heightMm)}${size.basis === "nominal" ? " nominal" : ""}` : null]
          .filter((part) => part !== null)
          .join(", ")}
      </span>
    </>
  );
}

function SortedColumn({ filter, sort, label }: { filter: PrintFilter; sort: PrintSort; label: string }) {
  const isSorted = filter.sort === sort;
  const direction = isSorted && filter.direction === "up" ? "down" : "up";
  return (
    <th scope="col" aria-sort={isSorted ? (filter.direction === "up" ? "ascending" : "descending") : undefined}>
      <a class="sort" href={printsAddress({ ...filter, sort, direction, page: 1 }, "table")}>
        {label}
      </a>
    </th>
  );
}
