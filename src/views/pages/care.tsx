import type { PrintFilter } from "#domain/print/print-filter.ts";
import { capital } from "#domain/sentence.ts";
import { type CarePriority, FACTORS, type FactorName } from "#domain/storage/care-priority.ts";
import { type PlaceNode, pathInWords } from "#domain/storage/place-tree.ts";
import { counted } from "../format/counted.ts";
import { ChoiceField, type FormState, TextField } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";
import { NoPrint } from "../parts/no-print.tsx";
import { Paging } from "../parts/paging.tsx";
import { placeChoices, processChoices } from "../parts/print-choices.ts";

export type CarePageProps = {
  collectionName: string;
  filter: PrintFilter;
  places: readonly PlaceNode[];
  lines: readonly {
    readonly print: { readonly id: number; readonly objectNumber: string; readonly title: string };
    readonly placePath: readonly string[];
    readonly priority: CarePriority;
  }[];
  total: number;
  page: number;
  perPage: number;
};

const FACTOR_LABELS: Readonly<Record<FactorName, string>> = {
  condition: "Condition",
  activity: "Damage goes on",
  significance: "Significance",
  climate: "Climate",
};

/** What to care for first, and why. */
export function CarePage({ collectionName, filter, places, lines, total, page, perPage }: CarePageProps) {
  const asked = queryOf(filter);
  return (
    <Layout title="Care first" section="condition" collectionName={collectionName}>
      <div class="page">
        <header class="page-head">
          <div>
            <h1>Care first</h1>
            <p>
              {capital(counted(total, "print", "prints"))}, in the order in which they ask for care: condition × damage that goes on ×
              significance × climate.
            </p>
          </div>
          <p class="actions">
            <a href={`/care.csv${asked("&spreadsheet=yes").replace(/^&/, "?")}`}>Download as CSV</a>
          </p>
        </header>
        <Filter filter={filter} places={places} />
        <p class="small">
          What nobody has looked at counts as a middling case, never as a good one; the figures in brackets say between which bounds the
          priority lies until it is known. The scores and their product are our own; scoring and ranking is after the U.S. National Park
          Service, Conserve O Gram 19.
        </p>
        {lines.length === 0 ? <NoPrint filter={filter} words="No print fits." /> : <Lines lines={lines} />}
        <Paging page={page} perPage={perPage} total={total} href={(number) => `/care?page=${number}${asked("")}`} />
      </div>
    </Layout>
  );
}

/** The filter as it stands in an address, after other parts of it. */
const queryOf =
  ({ search, processId, placeId }: PrintFilter) =>
  (rest: string): string => {
    const said = Object.entries({ search, process: processId ?? "", place: placeId === null ? "" : String(placeId) }).filter(
      ([, value]) => value !== "",
    );
    return `${said.map(([name, value]) => `&${name}=${encodeURIComponent(value)}`).join("")}${rest}`;
  };

function Filter({ filter, places }: Pick<CarePageProps, "filter" | "places">) {
  const form: FormState = {
    typed: { search: filter.search, process: filter.processId ?? "", place: filter.placeId === null ? "" : String(filter.placeId) },
    refusals: [],
  };
  return (
    <form class="card" method="get" action="/care">
      <div class="field-grid">
        <TextField form={form} name="search" label="Words in the record" type="search" most={200} />
        <ChoiceField form={form} name="process" label="Process" none="Any" groups={processChoices()} />
        <ChoiceField form={form} name="place" label="Place" none="Any" choices={placeChoices(places)} />
      </div>
      <p class="actions">
        <button class="button" type="submit">
          Show
        </button>
        <a href="/care">Show all</a>
      </p>
    </form>
  );
}

const Lines = ({ lines }: Pick<CarePageProps, "lines">) => (
  <div class="table-frame">
    <table class="table table-stacked">
      <caption class="visually-hidden">Prints by priority of care</caption>
      <thead>
        <tr>
          <th scope="col" class="number">
            Priority
          </th>
          <th scope="col">Print</th>
          {FACTORS.map((name) => (
            <th scope="col">{FACTOR_LABELS[name]}</th>
          ))}
        </tr>
      </thead>
      <tbody>
        {lines.map(({ print, placePath, priority }) => (
          <tr>
            <td class="number" data-label="Priority">
              {priority.score}
              {priority.least === priority.most ? null : (
                <span class="care-factor">
                  ({priority.least} to {priority.most})
                </span>
              )}
            </td>
            <th scope="row">
              <a href={`/prints/${print.id}`}>
                <span class="object-number">{print.objectNumber}</span> {print.title}
              </a>
              <span class="care-factor">{placePath.length === 0 ? "Place not known" : pathInWords(placePath)}</span>
            </th>
            {FACTORS.map((name) => {
              const factor = priority.factors[name];
              return (
                <td data-label={FACTOR_LABELS[name]}>
                  {factor.isKnown ? factor.score : `not known, counted as ${factor.score}`}
                  <span class="care-factor">{factor.because}</span>
                </td>
              );
            })}
          </tr>
        ))}
      </tbody>
    </table>
  </div>
);
