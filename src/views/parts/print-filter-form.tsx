import { measureInWords } from "#domain/aim/measure-words.ts";
import { MEASURES } from "#domain/measure/catalogue.ts";
import type { Refusal } from "#domain/outcome.ts";
import { findFormat } from "#domain/print/format.ts";
import { PRINT_SORTS, type PrintFilter, type PrintSort } from "#domain/print/print-filter.ts";
import { findProcess } from "#domain/print/process.ts";
import { REQUIRED_MEASURES, type RecaptureFilter } from "#domain/recapture/recapture-filter.ts";
import { type PlaceNode, pathInWords } from "#domain/storage/place-tree.ts";
import { ChoiceField, TextField } from "./field.tsx";
import { formatChoices, placeChoices, processChoices } from "./print-choices.ts";
import { type PrintsView, printsAddress } from "./prints-address.ts";

type Props = { filter: PrintFilter; view: PrintsView; places: readonly PlaceNode[] };

/** Search on top, the limits folded away until they are wanted. A plain form; with script the list follows while one types. */
export function PrintFilterForm({
  filter,
  view,
  places,
  problems,
  action = "/prints",
  results = "print-list",
}: Props & { problems: readonly Refusal[]; action?: string; results?: string }) {
  const form = { typed: typedOf(filter), refusals: problems };
  const isOpen =
    filter.processId !== null ||
    filter.formatId !== null ||
    filter.placeId !== null ||
    hasDates(filter) ||
    filter.captures !== "any" ||
    filter.recapture !== "any";
  return (
    <search aria-label="Prints">
      <form class="filter" method="get" action={action} {...followsTyping(action, results)}>
        {view === "sheet" ? <input type="hidden" name="view" value="sheet" /> : null}
        <div class="filter-search">
          <TextField form={form} name="search" label="Search all records" type="search" most={200} />
          <button class="button" type="submit">
            Search
          </button>
        </div>
        <details class="filter-limits" open={isOpen}>
          <summary>Narrow and sort</summary>
          <div class="field-grid">
            <ChoiceField form={form} name="process" label="Process" none="Any process" groups={processChoices()} />
            <ChoiceField form={form} name="format" label="Format" none="Any format" groups={formatChoices()} />
            <ChoiceField form={form} name="place" label="Place, with all inside it" none="Any place" choices={placeChoices(places)} />
            <ChoiceField form={form} name="captures" label="Captures" choices={CAPTURES} />
            <ChoiceField form={form} name="recapture" label="To be captured again" choices={RECAPTURE} groups={RECAPTURE_REASONS} />
            <TextField form={form} name="from" label="Date from" most={60} hint="A year, or a day such as 1978-06-21" />
            <TextField form={form} name="to" label="Date to" most={60} />
            <ChoiceField
              form={form}
              name="sort"
              label="Sort by"
              choices={PRINT_SORTS.map((sort) => ({ value: sort, label: SORT_LABELS[sort] }))}
            />
            <ChoiceField form={form} name="direction" label="Order" choices={DIRECTIONS} />
          </div>
          <p class="actions">
            <button class="button button-quiet" type="submit">
              Show
            </button>
          </p>
        </details>
      </form>
    </search>
  );
}

/** Each limit in words, with a way to take it away. */
export function NarrowedBy({ filter, view, places }: Props) {
  const limits = limitsInWords(filter, places);
  if (limits.length === 0) return null;
  return (
    <ul class="narrowed" aria-label="Narrowed by">
      {limits.map(({ words, without }) => (
        <li>
          <a href={printsAddress({ ...filter, ...without, page: 1 }, view)}>
            {words} <span aria-hidden="true">×</span>
            <span class="visually-hidden"> (take away)</span>
          </a>
        </li>
      ))}
    </ul>
  );
}

const followsTyping = (action: string, results: string) => ({
  "hx-get": action,
  "hx-trigger": "input delay:350ms, submit",
  "hx-target": `#${results}`,
  "hx-select": `#${results}`,
  "hx-swap": "outerHTML",
  "hx-replace-url": "true",
});

const SORT_LABELS: Readonly<Record<PrintSort, string>> = {
  number: "Object number",
  title: "Title",
  date: "Date",
  updated: "Last changed",
};

const DIRECTIONS = [
  { value: "up", label: "First to last" },
  { value: "down", label: "Last to first" },
];

const CAPTURES = [
  { value: "any", label: "With or without" },
  { value: "with", label: "With captures" },
  { value: "without", label: "Without any" },
];

const RECAPTURE = [
  { value: "any", label: "Whether or not" },
  { value: "needed", label: "For any reason" },
  { value: "no-capture", label: "No capture of the front" },
];

const RECAPTURE_REASONS = [
  { label: "Best capture falls short in", choices: REQUIRED_MEASURES.map((name) => ({ value: name, label: MEASURES[name].label })) },
];

const hasDates = (filter: PrintFilter): boolean => filter.dateFrom !== "" || filter.dateTo !== "";

const typedOf = (filter: PrintFilter) => ({
  search: filter.search,
  process: filter.processId ?? "",
  format: filter.formatId ?? "",
  place: filter.placeId === null ? "" : String(filter.placeId),
  captures: filter.captures,
  recapture: filter.recapture,
  from: filter.dateFrom,
  to: filter.dateTo,
  sort: filter.sort,
  direction: filter.direction,
});

function limitsInWords(filter: PrintFilter, places: readonly PlaceNode[]): { words: string; without: Partial<PrintFilter> }[] {
  const place = places.find((each) => each.id === filter.placeId);
  const { processId, formatId, placeId, search, captures, recapture } = filter;
  return [
    ...(search === "" ? [] : [{ words: `“${search}”`, without: { search: "" } }]),
    ...(processId === null ? [] : [{ words: findProcess(processId)?.name ?? processId, without: { processId: null } }]),
    ...(formatId === null ? [] : [{ words: findFormat(formatId)?.name ?? formatId, without: { formatId: null } }]),
    ...(placeId === null
      ? []
      : [{ words: place ? `In ${pathInWords(place.path)}` : "In a place that is gone", without: { placeId: null } }]),
    ...(filter.dateFrom === "" ? [] : [{ words: `From ${filter.dateFrom}`, without: { dateFrom: "", firstDay: null } }]),
    ...(filter.dateTo === "" ? [] : [{ words: `To ${filter.dateTo}`, without: { dateTo: "", lastDay: null } }]),
    ...(captures === "any"
      ? []
      : [{ words: captures === "with" ? "With captures" : "Without captures", without: { captures: "any" as const } }]),
    ...(recapture === "any" ? [] : [{ words: recaptureInWords(recapture), without: { recapture: "any" as const } }]),
  ];
}

function recaptureInWords(recapture: RecaptureFilter): string {
  if (recapture === "needed") return "To be captured again";
  return recapture === "no-capture" ? "No capture of the front" : `Falls short in ${measureInWords(recapture)}`;
}
