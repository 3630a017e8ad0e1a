import { capital } from "#domain/sentence.ts";

/** The parts of a reading: figures as a list, rows of figures as a table. Points and long series are for plots, not for eyes. */
export function ReadingDetail({ detail }: { detail: Readonly<Record<string, unknown>> }) {
  const parts = Object.entries(detail).flatMap(([name, value]) => part(name, value));
  return parts.length === 0 ? null : (
    <details>
      <summary>Parts of the reading</summary>
      {parts}
    </details>
  );
}

type Row = Readonly<Record<string, string | number | boolean | null>>;

function part(name: string, value: unknown) {
  if (isPlain(value)) return [<Figures title={null} row={{ [name]: value }} />];
  if (Array.isArray(value)) {
    const rows = value.map(plainRow).filter((row) => row !== null);
    return rows.length > 0 ? [<Rows title={inWords(name)} rows={rows} />] : [];
  }
  const row = plainRow(value);
  if (row) return [<Figures title={inWords(name)} row={row} />];
  const rows = namedRows(value);
  return rows.length > 0 ? [<Rows title={inWords(name)} rows={rows} />] : [];
}

const Figures = ({ title, row }: { title: string | null; row: Row }) => (
  <>
    {title ? <h4>{title}</h4> : null}
    <dl class="facts">
      {Object.entries(row).map(([name, value]) => (
        <>
          <dt>{inWords(name)}</dt>
          <dd>{figureInWords(value)}</dd>
        </>
      ))}
    </dl>
  </>
);

function Rows({ title, rows }: { title: string; rows: readonly Row[] }) {
  const columns = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  return (
    <section class="table-frame" aria-label={title} tabindex={0}>
      <table class="table">
        <caption>{title}</caption>
        <thead>
          <tr>
            {columns.map((column) => (
              <th scope="col">{inWords(column)}</th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr>
              {columns.map((column) => (
                <td>{figureInWords(row[column] ?? null)}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** { top: { sfr50: 3.1 }, left: { sfr50: 2.8 } } as rows that name themselves. */
function namedRows(value: unknown): Row[] {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return [];
  return Object.entries(value).flatMap(([name, inner]) => {
    const row = plainRow(inner);
    return row ? [{ "": inWords(name), ...row }] : [];
  });
}

/** The plain values of an object; null where it holds none, or where it is a point, which says nothing to a reader. */
function plainRow(value: unknown): Row | null {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return null;
  const entries = Object.entries(value).filter((entry): entry is [string, Row[string]] => isPlain(entry[1]));
  const isPoint = entries.length === 2 && entries.every(([name]) => name === "x" || name === "y");
  return entries.length === 0 || isPoint ? null : Object.fromEntries(entries);
}

const isPlain = (value: unknown): value is Row[string] =>
  value === null || typeof value === "number" || typeof value === "string" || typeof value === "boolean";

function figureInWords(value: Row[string]): string {
  if (value === null) return "none";
  if (typeof value === "boolean") return value ? "yes" : "no";
  return typeof value === "number" ? String(Number(value.toPrecision(4))) : value;
}

const UNITS: Readonly<Record<string, string>> = {
  CyPerMm: "cycles per mm",
  CyPerPx: "cycles per px",
  PerMm: "per mm",
  Mm: "mm",
  Px: "px",
  Ppi: "ppi",
  Percent: "%",
  Deg: "°",
};

/** sheetWidthMm → "Sheet width, mm" */
function inWords(name: string): string {
  const unit = Object.keys(UNITS).find((each) => name.endsWith(each));
  const stem = unit ? name.slice(0, -unit.length) : name;
  const words = stem
    .replaceAll(/([a-z0-9])([A-Z])/g, "$1 $2")
    .replaceAll("-", " ")
    .toLowerCase()
    .replaceAll(/sfr(\d+)/g, "SFR $1 %");
  return `${capital(words)}${unit ? `, ${UNITS[unit]}` : ""}`;
}
