import { DEFER } from "#domain/condition/caution.ts";
import type { LabelMarks } from "#domain/condition/label-marks.ts";
import type { MethodStop } from "#domain/condition/method-stop.ts";
import type { Refusal } from "#domain/outcome.ts";
import { type PrintFilter, printFilterQuery } from "#domain/print/print-filter.ts";
import { capital } from "#domain/sentence.ts";
import type { PlaceNode } from "#domain/storage/place-tree.ts";
import { counted } from "../format/counted.ts";
import { LEVEL_WORDS } from "../parts/cautions.tsx";
import { ChoiceField } from "../parts/field.tsx";
import { FilterProblems } from "../parts/filter-problems.tsx";
import { Layout } from "../parts/layout.tsx";
import { notWith } from "../parts/method-stop.tsx";
import { NoPrint } from "../parts/no-print.tsx";
import { Paging } from "../parts/paging.tsx";
import { placeChoices } from "../parts/print-choices.ts";
import { PrintDate } from "../parts/print-date.tsx";

export type LabelSize = { readonly key: "sleeve" | "box"; readonly name: string; readonly mostMarks: number };

/** The millimetres themselves stand in the style sheet. */
export const LABEL_SIZES: readonly [LabelSize, ...LabelSize[]] = [
  { key: "sleeve", name: "59 × 42 mm", mostMarks: 2 },
  { key: "box", name: "89 × 52 mm", mostMarks: 4 },
];

export type LabelsPageProps = {
  collectionName: string;
  filter: PrintFilter & { readonly perPage: number };
  problems: readonly Refusal[];
  places: readonly PlaceNode[];
  size: LabelSize;
  total: number;
  labels: readonly (LabelMarks & {
    readonly print: { readonly id: number; readonly objectNumber: string; readonly title: string; readonly date: string | null };
    readonly keptFrom: readonly MethodStop[];
  })[];
};

/** Labels to print and cut: number, title, and in words what to mind before the sleeve is opened. */
export const LabelsPage = ({ collectionName, filter, problems, places, size, total, labels }: LabelsPageProps) => (
  <Layout title="Labels" section="prints" collectionName={collectionName}>
    <div class="page labels-page">
      <header class="page-head">
        <div>
          <h1>Labels</h1>
          <p>
            {capital(counted(total, "print", "prints"))}, {size.name} each. Print this page at 100 %, without fitting it to the paper; the
            labels alone come out.
          </p>
        </div>
      </header>
      <FilterProblems problems={problems} />
      <Choices filter={filter} places={places} size={size} />
      {labels.length === 0 ? <NoPrint filter={filter} words="No print fits. Choose another place." /> : null}
      <ul class={`labels labels-${size.key}`}>
        {labels.map(({ print, marks, more, keptFrom }) => (
          <li class="label">
            <p class="label-number">
              <a href={`/prints/${print.id}`}>{print.objectNumber}</a>
            </p>
            <p class="label-title">
              {print.title === "" ? "Untitled" : print.title}
              {print.date ? (
                <>
                  , <PrintDate date={print.date} />
                </>
              ) : null}
            </p>
            {marks.map(({ level, title }) => (
              <p class={`label-mark label-mark-${level}`}>
                {LEVEL_WORDS[level]}: {title}
              </p>
            ))}
            {more > 0 ? <p class="label-more">{counted(more, "more warning", "more warnings")} in the record</p> : null}
            {keptFrom.length > 0 ? <p class="label-more">{notWith(keptFrom)}</p> : null}
          </li>
        ))}
      </ul>
      <p class="small labels-defer">As recorded today; a later look may add to it. {DEFER.replace("this note", "these labels")}</p>
      <Paging page={filter.page} perPage={filter.perPage} total={total} href={(page) => labelsAddress({ ...filter, page }, size)} />
    </div>
  </Layout>
);

const Choices = ({ filter, places, size }: Pick<LabelsPageProps, "filter" | "places" | "size">) => {
  const form = { typed: { place: filter.placeId === null ? "" : String(filter.placeId), size: size.key }, refusals: [] };
  const others = Object.entries(printFilterQuery({ ...filter, placeId: null, page: 1 }));
  return (
    <form class="card filter" method="get" action="/labels">
      {others.map(([name, value]) => (
        <input type="hidden" name={name} value={value} />
      ))}
      <div class="field-grid">
        <ChoiceField form={form} name="place" label="Place, with all inside it" none="Any place" choices={placeChoices(places)} />
        <ChoiceField
          form={form}
          name="size"
          label="Size of a label"
          choices={LABEL_SIZES.map(({ key, name }) => ({ value: key, label: name }))}
        />
      </div>
      <p class="actions">
        <button class="button" type="submit">
          Show
        </button>
      </p>
    </form>
  );
};

/** The address of the labels of what a filter means. */
export const labelsAddress = (filter: PrintFilter, size?: LabelSize): string => {
  const query = new URLSearchParams({ ...printFilterQuery(filter), ...(size && { size: size.key }) });
  return query.size === 0 ? "/labels" : `/labels?${query}`;
};
