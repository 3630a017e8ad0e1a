import { type Lab, labOf } from "../measure/colour/lab.ts";
import { done, type Outcome, type Refusal, refused } from "../outcome.ts";

/** What a target's patches truly are, as its maker or a spectrophotometer says: L*a*b* under D50, by patch name. */
export type ReferenceValues = {
  readonly patches: ReadonlyMap<string, Lab>;
  readonly descriptor: string | null;
  readonly serial: string | null;
  /** illuminant and observer as the file says them; null where it is silent, and D50 and 2° are taken; others are refused */
  readonly illuminant: string | null;
  readonly observer: string | null;
};

const MOST_LINES = 20_000;
const MOST_PATCHES = 5000;

/**
 * Reads the keyword text form of CGATS.17 and ISO 28178 (the standard itself was not read; keywords as widely implemented, from
 * memory): header, BEGIN_DATA_FORMAT with field names, BEGIN_DATA with one patch a line. Takes LAB_* or XYZ_*; of several tables the
 * first that has them. A decimal comma is understood. Patches are known by SAMPLE_NAME and by SAMPLE_ID, the name first.
 */
export function readReferenceValues(text: string): Outcome<ReferenceValues> {
  const lines = text.replace(/^\uFEFF/, "").split(/\r\n?|\n/);
  if (lines.length > MOST_LINES)
    return refused(problem(`The file has more than ${MOST_LINES} lines.`, "Give the target's own reference file."));
  const header = new Map<string, string>();
  let fields: string[] | null = null;
  let at = 0;
  while (at < lines.length) {
    const words = wordsOf(lines[at] ?? "");
    at++;
    const [keyword, value] = words;
    if (keyword === "BEGIN_DATA_FORMAT") [fields, at] = until("END_DATA_FORMAT", lines, at);
    else if (keyword === "BEGIN_DATA" && fields) {
      const [cells, after] = until("END_DATA", lines, at);
      const table = tableOf(fields, cells, at);
      if (table) return table.ok ? underD50({ ...headerOf(header), patches: table.value }) : table;
      at = after;
    } else if (keyword === "BEGIN_DATA") return refused(problem("The data begin before the file says what its fields are.", NOT_CGATS));
    else if (keyword && value !== undefined) note(header, keyword, value);
  }
  return refused(problem("The file has no table with LAB_L, LAB_A, LAB_B or XYZ_X, XYZ_Y, XYZ_Z.", NOT_CGATS));
}

/** Colours under another light are other numbers: taking them for those of D50 would tell faults that are none. */
function underD50(values: ReferenceValues): Outcome<ReferenceValues> {
  const { illuminant, observer } = values;
  if ((illuminant !== null && illuminant.toUpperCase() !== "D50") || (observer !== null && !/^2\b/.test(observer)))
    return refused(
      problem(
        `Its values are for ${[illuminant, observer].filter(Boolean).join(", ")}, and the picture is read for D50 and the 2 degree observer.`,
        "Ask for the target's values for D50 and 2 degrees.",
      ),
    );
  return done(values);
}

const NOT_CGATS = "Give the reference values as a CGATS.17 text file, as they come with the target.";

const problem = (happened: string, remedy: string): Refusal => ({ about: "reference", happened, remedy });

/** A comment begins with #; white space parts words, except inside quotes. */
const wordsOf = (line: string): string[] =>
  (line.match(/"[^"]*"|#.*$|[^\s"#]+/g) ?? []).filter((word) => !word.startsWith("#")).map((word) => word.replaceAll('"', ""));

/** All words up to a line that ends the block, and the line after it. */
function until(end: string, lines: readonly string[], from: number): [words: string[], after: number] {
  const words: string[] = [];
  for (let at = from; at < lines.length; at++) {
    const line = wordsOf(lines[at] ?? "");
    if (line[0] === end) return [words, at + 1];
    words.push(...line);
  }
  return [words, lines.length];
}

/** An empty cell is no number; Number() would take it for nought. */
const numberIn = (cell: string): number => (cell.trim() === "" ? Number.NaN : Number(cell.replace(",", ".")));

function note(header: Map<string, string>, keyword: string, value: string): void {
  const [name, said] = value.split(",").map((part) => part.trim());
  // "ILLUMINANT, D50" comes under a keyword that may stand several times
  if (keyword === "WEIGHTING_FUNCTION" && name && said) header.set(`${keyword} ${name.toUpperCase()}`, said);
  else header.set(keyword, value);
}

const headerOf = (header: ReadonlyMap<string, string>) => ({
  descriptor: header.get("DESCRIPTOR") ?? header.get("FILE_DESCRIPTOR") ?? null,
  serial: header.get("SERIAL") ?? null,
  illuminant: header.get("WEIGHTING_FUNCTION ILLUMINANT") ?? null,
  observer: header.get("WEIGHTING_FUNCTION OBSERVER") ?? null,
});

/** Null where the table has no colours; refused where a line does not hold what its fields promise. */
function tableOf(fields: readonly string[], cells: readonly string[], line: number): Outcome<Map<string, Lab>> | null {
  const of = (...names: string[]) => names.map((name) => fields.indexOf(name));
  const [lab, xyz] = [of("LAB_L", "LAB_A", "LAB_B"), of("XYZ_X", "XYZ_Y", "XYZ_Z")];
  const columns = lab.every((column) => column >= 0) ? lab : xyz.every((column) => column >= 0) ? xyz : null;
  const names = of("SAMPLE_NAME", "SAMPLE_ID").filter((column) => column >= 0);
  if (!columns || names.length === 0) return null;
  if (cells.length === 0 || cells.length % fields.length !== 0 || cells.length / fields.length > MOST_PATCHES)
    return refused(problem(`The table from line ${line + 1} does not fill its ${fields.length} fields evenly.`, NOT_CGATS));
  const patches = new Map<string, Lab>();
  for (let start = 0; start < cells.length; start += fields.length) {
    const [first, second, third] = columns.map((column) => numberIn(cells[start + column] ?? ""));
    if (
      first === undefined ||
      second === undefined ||
      third === undefined ||
      [first, second, third].some((value) => !Number.isFinite(value))
    )
      return refused(problem(`Patch ${cells[start + (names[0] ?? 0)]} has a value that is not a number.`, NOT_CGATS));
    const colour: Lab = columns === lab ? [first, second, third] : labOf(first / 100, second / 100, third / 100);
    for (const column of names.toReversed()) patches.set(cells[start + column] ?? "", colour);
  }
  return done(patches);
}
