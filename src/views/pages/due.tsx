import { GRADE_WORDS, type Grade } from "#domain/condition/grade.ts";
import { dateInWords } from "#domain/print/date.ts";
import { counted } from "../format/counted.ts";
import { ChoiceField } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";

type OfPrint = { readonly printId: number; readonly objectNumber: string; readonly title: string; readonly placeId: number | null };
export type ShownDue = OfPrint & {
  readonly dueOn: string;
  readonly because: string;
  readonly source: string;
  readonly surveyedOn: string;
  readonly grade: Grade | null;
};

export type DuePageProps = {
  collectionName: string;
  today: string;
  places: readonly { readonly id: number; readonly name: string }[];
  /** null: everywhere */
  placeId: number | null;
  dueCount: number;
  due: readonly ShownDue[];
  laterCount: number;
  later: readonly ShownDue[];
  never: { readonly rows: readonly OfPrint[]; readonly total: number };
};

/** Which prints ask to be looked at again, why, and which nobody has looked at. */
export function DuePage(props: DuePageProps) {
  const { places, placeId, dueCount, never } = props;
  const form = { typed: { place: placeId === null ? "" : String(placeId) }, refusals: [] };
  return (
    <Layout title="Looks that are due" section="condition" collectionName={props.collectionName}>
      <div class="page">
        <header class="page-head">
          <div>
            <h1>Looks that are due</h1>
            <p>
              {dueCount === 0 ? "No look is due" : `${counted(dueCount, "print asks", "prints ask")} to be looked at again`}
              {never.total > 0 ? `; nobody has looked at ${counted(never.total, "print", "prints")} yet.` : "."}
            </p>
          </div>
          <p class="actions">
            <a class="button button-quiet" href="/care">
              What to care for first
            </a>
            <a class="button" href="/rounds">
              Go through a place, or draw a sample
            </a>
          </p>
        </header>
        {places.length > 0 ? (
          <form class="due-filter" method="get" action="/due">
            <ChoiceField
              form={form}
              name="place"
              label="Place"
              none="Everywhere"
              choices={places.map(({ id, name }) => ({ value: String(id), label: name }))}
            />
            <button class="button button-quiet" type="submit">
              Show
            </button>
          </form>
        ) : null}
        <DueSection title={`Due: ${dueCount}`} id="due" lines={props.due} total={dueCount} places={places} />
        {never.total > 0 ? (
          <section class="card" aria-labelledby="never-title">
            <h2 id="never-title">Never looked at: {never.total}</h2>
            <ul class="due-never">
              {never.rows.map(({ printId, objectNumber, title }) => (
                <li>
                  <a class="object-number" href={`/prints/${printId}/survey`}>
                    {objectNumber}
                  </a>{" "}
                  {title === "" ? "Untitled" : title}
                </li>
              ))}
            </ul>
            {never.total > never.rows.length ? <p class="soft">And {never.total - never.rows.length} more.</p> : null}
          </section>
        ) : null}
        <DueSection title={`Later: ${props.laterCount}`} id="later" lines={props.later} total={props.laterCount} places={places} />
      </div>
    </Layout>
  );
}

function DueSection(props: { title: string; id: string; lines: readonly ShownDue[]; total: number; places: DuePageProps["places"] }) {
  const { title, id, lines, total, places } = props;
  if (lines.length === 0) return null;
  return (
    <section class="card" aria-labelledby={`${id}-title`}>
      <h2 id={`${id}-title`}>{title}</h2>
      <ol class="due-list">
        {lines.map((line) => (
          <li>
            <p>
              <a class="object-number" href={`/prints/${line.printId}/survey`}>
                {line.objectNumber}
              </a>{" "}
              {line.title === "" ? "Untitled" : line.title}
            </p>
            <p>
              By {dateInWords(line.dueOn)}, because {line.because}.
            </p>
            <p class="small soft">
              Last look {dateInWords(line.surveyedOn)}
              {line.grade ? `, ${GRADE_WORDS[line.grade].toLowerCase()}` : ""}
              {placeName(line, places)}. Interval: {line.source}.
            </p>
          </li>
        ))}
      </ol>
      {total > lines.length ? <p class="soft">And {total - lines.length} more.</p> : null}
    </section>
  );
}

const placeName = ({ placeId }: OfPrint, places: DuePageProps["places"]): string => {
  const place = places.find(({ id }) => id === placeId);
  return place ? `. ${place.name}` : "";
};
