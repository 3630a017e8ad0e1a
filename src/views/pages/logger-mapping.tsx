import { ROW_PROBLEMS, type RowProblem } from "#domain/storage/climate/read-row.ts";
import { ChoiceField, type FormState, TextField } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";

export type LoggerMappingPageProps = {
  collectionName: string;
  place: { readonly id: number; readonly name: string };
  token: string;
  fileName: string;
  /** the first rows, cut into cells */
  rows: readonly (readonly string[])[];
  headerRow: readonly string[];
  /** the first readings as what is typed below reads them; empty where it cannot be read so */
  readAs: readonly {
    readonly row: number;
    readonly reading: {
      readonly atSeconds: number;
      readonly temperatureCentiC: number | null;
      readonly humidityCentiPercent: number | null;
    } | null;
    readonly problems: readonly RowProblem[];
  }[];
  form: FormState;
};

const LABELS: Readonly<Record<string, string>> = {
  delimiter: "Between the columns",
  firstRow: "First row with a reading",
  timeColumn: "Column of date and time",
  clockColumn: "Column of the time of day",
  dateOrder: "Order of the date",
  timeZone: "Time zone of the logger's clock",
  temperatureColumn: "Column of the temperature",
  temperatureUnit: "Unit of the temperature",
  humidityColumn: "Column of the relative humidity",
  decimalSign: "Before the decimals",
};

/** What the columns of a logger's file are: its first rows, how they will be read, and the fields that say so. */
export function LoggerMappingPage({ collectionName, place, token, fileName, rows, headerRow, readAs, form }: LoggerMappingPageProps) {
  const address = `/places/${place.id}/climate/files/${token}`;
  const columnCount = Math.max(1, ...rows.map((cells) => cells.length));
  const columns = Array.from({ length: Math.min(columnCount, 40) }, (_, index) => ({
    value: String(index + 1),
    label: headerRow[index] ? `${index + 1}: ${headerRow[index].slice(0, 40)}` : `Column ${index + 1}`,
  }));
  return (
    <Layout title="Logger's file" section="places" collectionName={collectionName}>
      <div class="page">
        <header class="page-head">
          <div>
            <h1>How is this file to be read?</h1>
            <p>
              {fileName}, for {place.name}. Nothing is kept yet.
            </p>
          </div>
        </header>
        <RefusalSummary refusals={form.refusals} labels={LABELS} title="Not read yet. Everything you said is still here." />
        <FirstRows rows={rows} columnCount={columns.length} />
        <form class="card" method="post" action={`${address}/import`} novalidate>
          <div class="field-grid">
            <ChoiceField form={form} name="delimiter" label={LABELS.delimiter ?? ""} choices={DELIMITER_CHOICES} />
            <TextField form={form} name="firstRow" label={LABELS.firstRow ?? ""} inputMode="numeric" width="narrow" most={10} />
            <ChoiceField form={form} name="timeColumn" label={LABELS.timeColumn ?? ""} none="Choose" choices={columns} />
            <ChoiceField form={form} name="clockColumn" label={LABELS.clockColumn ?? ""} none="The same column" choices={columns} />
            <ChoiceField form={form} name="dateOrder" label={LABELS.dateOrder ?? ""} none="Choose" choices={ORDER_CHOICES} />
            <TextField
              form={form}
              name="timeZone"
              label={LABELS.timeZone ?? ""}
              most={60}
              hint="By name where its clock follows summer time, such as Europe/Lisbon; else as UTC or +01:00"
            />
            <ChoiceField form={form} name="temperatureColumn" label={LABELS.temperatureColumn ?? ""} none="None" choices={columns} />
            <ChoiceField form={form} name="temperatureUnit" label={LABELS.temperatureUnit ?? ""} choices={UNIT_CHOICES} />
            <ChoiceField form={form} name="humidityColumn" label={LABELS.humidityColumn ?? ""} none="None" choices={columns} />
            <ChoiceField form={form} name="decimalSign" label={LABELS.decimalSign ?? ""} choices={DECIMAL_CHOICES} />
          </div>
          <ReadAs readAs={readAs} />
          <p class="actions">
            <button class="button" type="submit">
              Read the whole file
            </button>
            <button class="button button-quiet" type="submit" formmethod="get" formaction={address}>
              Show how it is read so
            </button>
          </p>
        </form>
        <form method="post" action={`${address}/stop`}>
          <button class="button button-quiet" type="submit">
            Leave the file, and keep nothing
          </button>
        </form>
      </div>
    </Layout>
  );
}

const FirstRows = ({ rows, columnCount }: { rows: readonly (readonly string[])[]; columnCount: number }) => (
  <div class="table-frame">
    <table class="table">
      <caption>First rows of the file</caption>
      <thead>
        <tr>
          <th scope="col">Row</th>
          {Array.from({ length: columnCount }, (_, index) => (
            <th scope="col">Column {index + 1}</th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((cells, index) => (
          <tr>
            <th scope="row">{index + 1}</th>
            {Array.from({ length: columnCount }, (_, column) => (
              <td class="as-typed">{(cells[column] ?? "").slice(0, 80)}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  </div>
);

const ReadAs = ({ readAs }: Pick<LoggerMappingPageProps, "readAs">) =>
  readAs.length === 0 ? (
    <p class="soft">Fill in what is open, then look here how the first rows are read.</p>
  ) : (
    <section aria-labelledby="read-as">
      <h2 id="read-as">Read so, the first rows say</h2>
      <ul>
        {readAs.map(({ row, reading, problems }) => (
          <li>
            Row {row}: {reading ? readingInWords(reading) : ""} {problems.map((problem) => ROW_PROBLEMS[problem]).join(" ")}
          </li>
        ))}
      </ul>
    </section>
  );

function readingInWords({
  atSeconds,
  temperatureCentiC,
  humidityCentiPercent,
}: NonNullable<LoggerMappingPageProps["readAs"][number]["reading"]>): string {
  const moment = new Intl.DateTimeFormat("en-GB", { dateStyle: "long", timeStyle: "short", timeZone: "UTC" }).format(
    new Date(atSeconds * 1000),
  );
  const temperature = temperatureCentiC === null ? "no temperature" : `${(temperatureCentiC / 100).toFixed(1)} °C`;
  const humidity = humidityCentiPercent === null ? "no humidity" : `${(humidityCentiPercent / 100).toFixed(1)} %`;
  return `${moment} UTC, ${temperature}, ${humidity}.`;
}

const DELIMITER_CHOICES = [
  { value: "comma", label: "Comma" },
  { value: "semicolon", label: "Semicolon" },
  { value: "tab", label: "Tabulator" },
];
const ORDER_CHOICES = [
  { value: "year-month-day", label: "Year, month, day: 2026-03-01" },
  { value: "day-month-year", label: "Day, month, year: 01.03.2026" },
  { value: "month-day-year", label: "Month, day, year: 03/01/2026" },
];
const UNIT_CHOICES = [
  { value: "celsius", label: "°C" },
  { value: "fahrenheit", label: "°F" },
];
const DECIMAL_CHOICES = [
  { value: "point", label: "Point: 18.5" },
  { value: "comma", label: "Comma: 18,5" },
];
