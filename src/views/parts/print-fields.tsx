import type { Child } from "hono/jsx";
import type { PlaceNode } from "#domain/storage/place-tree.ts";
import { ChoiceField, type FormState, LongField, TextField } from "./field.tsx";
import { FormatFacts } from "./format-facts.tsx";
import { formatChoices, placeChoices, processChoices, rightsChoices } from "./print-choices.ts";

/** What each field of a print is called, wherever it is named. */
export const PRINT_LABELS: Readonly<Record<string, string>> = {
  objectNumber: "Object number",
  title: "Title",
  processId: "Process",
  formatId: "Format",
  sheetWidthMm: "Sheet, width",
  sheetHeightMm: "Sheet, height",
  imageWidthMm: "Image, width",
  imageHeightMm: "Image, height",
  borderTopMm: "Border above",
  borderRightMm: "Border on the right",
  borderBottomMm: "Border below",
  borderLeftMm: "Border on the left",
  thicknessMm: "Thickness",
  orientation: "Orientation",
  date: "Date of the picture",
  dateGround: "How the date is known",
  maker: "Maker",
  people: "People shown",
  subjects: "Subjects",
  inscriptionFront: "Inscription on the front",
  inscriptionBack: "Inscription on the back",
  placeId: "Place",
  provenance: "Provenance",
  rightsUri: "Rights",
  credit: "Credit line",
  valueAmount: "Value",
  valueCurrency: "Currency",
  significance: "Significance",
  significanceNote: "Why it matters",
  processedOn: "When it was developed",
  notes: "Notes",
};

/** Every field of a print's record, in the order a keeper looks at one. */
export function PrintFields({ form, places }: { form: FormState; places: readonly PlaceNode[] }) {
  const of = (name: string) => ({ form, name, label: PRINT_LABELS[name] ?? name });
  const mm = (name: string) => ({ ...of(name), unit: "mm", inputMode: "decimal" as const, width: "narrow" as const, most: 12 });
  return (
    <>
      <Group title="What it is">
        <TextField
          {...of("objectNumber")}
          isRequired
          most={100}
          hint="As it is written on the print or its sleeve. Once used it is never given to another print."
        />
        <TextField {...of("title")} width="wide" hint="What is written on it, or a few words of your own" />
        <ChoiceField
          {...of("processId")}
          groups={processChoices()}
          hint="Unsure? Leave it at “Not known”: handling cautions are then the strict ones."
        />
        <ChoiceField {...of("formatId")} none="No named format" groups={formatChoices()} asking={ASKS_FOR_FORMAT} />
        <FormatFacts formatId={form.typed.formatId ?? ""} />
      </Group>
      <Group
        title="Size, measured"
        note="In millimetres, as the print is normally looked at. What is measured here always wins over the format's size."
      >
        <TextField {...mm("sheetWidthMm")} />
        <TextField {...mm("sheetHeightMm")} />
        <TextField {...mm("imageWidthMm")} />
        <TextField {...mm("imageHeightMm")} />
        <TextField {...mm("borderTopMm")} />
        <TextField {...mm("borderRightMm")} />
        <TextField {...mm("borderBottomMm")} />
        <TextField {...mm("borderLeftMm")} />
        <TextField {...mm("thicknessMm")} />
        <ChoiceField {...of("orientation")} none="Not said" choices={ORIENTATIONS} width="narrow" />
      </Group>
      <Group title="Date">
        <TextField {...of("date")} most={100} hint={<DateExamples />} />
        <TextField {...of("dateGround")} width="wide" hint="Written on the back, the car in the picture, told by somebody" />
      </Group>
      <Group title="Who and what">
        <TextField {...of("maker")} hint="Photographer, studio or laboratory" />
        <LongField {...of("people")} rows={4} hint="One person a line" />
        <LongField {...of("subjects")} rows={4} hint="One subject a line: a place, an occasion, a thing" />
      </Group>
      <Group
        title="Inscriptions"
        note="Letter for letter, stamps and printed codes too. Mark a new line as it is; write [?] where you cannot read it."
      >
        <LongField {...of("inscriptionFront")} width="wide" />
        <LongField {...of("inscriptionBack")} width="wide" />
      </Group>
      <Group title="Where it is, where it came from">
        <ChoiceField
          {...of("placeId")}
          none="Not known"
          choices={placeChoices(places)}
          width="wide"
          hint={
            <>
              A place that is missing is added under <a href="/places">Places</a>; in most browsers what is typed here is filled in again
              afterwards.
            </>
          }
        />
        <LongField {...of("provenance")} width="wide" />
      </Group>
      <Group title="Rights and value">
        <ChoiceField
          {...of("rightsUri")}
          none="Not said"
          choices={rightsChoices()}
          width="wide"
          hint="The statements of rightsstatements.org"
        />
        <TextField {...of("credit")} width="wide" />
        <TextField {...of("valueAmount")} inputMode="decimal" width="narrow" most={20} />
        <TextField {...of("valueCurrency")} width="narrow" most={30} hint="Three letters, such as EUR" />
        <ChoiceField {...of("significance")} none="Not judged" choices={SIGNIFICANCE} />
        <LongField {...of("significanceNote")} width="wide" rows={2} />
      </Group>
      <Group title="Care">
        <TextField
          {...of("processedOn")}
          most={100}
          hint={
            <>
              As exactly as you know it: <code>1978-06-21</code>, <code>1976~</code> or <code>197X</code>. An instant print counts as fresh
              until this rules it out.
            </>
          }
        />
      </Group>
      <Group title="Notes">
        <LongField {...of("notes")} width="wide" rows={5} />
      </Group>
    </>
  );
}

const Group = ({ title, note, children }: { title: string; note?: string; children?: Child }) => (
  <fieldset class="record-group">
    <legend>{title}</legend>
    {note ? <p class="hint record-note">{note}</p> : null}
    <div class="field-grid">{children}</div>
  </fieldset>
);

const DateExamples = () => (
  <>
    <code>1978</code>, <code>1978-06</code>, <code>1978-06-21</code>; about: <code>1978~</code>; uncertain: <code>1978?</code>; the
    seventies: <code>197X</code>; between: <code>1976/1979</code>
  </>
);

/** The nominal size follows the choice where there is script; without it, the page of formats has them all. */
const ASKS_FOR_FORMAT = {
  "hx-get": "/formats",
  "hx-trigger": "change",
  "hx-target": "#format-facts",
  "hx-select": "#format-facts",
  "hx-swap": "outerHTML",
};

const ORIENTATIONS = [
  { value: "portrait", label: "Portrait" },
  { value: "landscape", label: "Landscape" },
  { value: "square", label: "Square" },
];

const SIGNIFICANCE = [
  { value: "5", label: "5: save it first" },
  { value: "4", label: "4: high" },
  { value: "3", label: "3: middling" },
  { value: "2", label: "2: low" },
  { value: "1", label: "1: would not be missed" },
];
