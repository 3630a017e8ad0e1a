import { existsSync, readFileSync, writeFileSync } from "node:fs";

const FROM = "<!-- made by the program from here: a whole run writes it anew -->";
const TO = "<!-- made by the program up to here -->";

/** Puts what a run made in the place of what the last one made; what is written by hand before and after it stays. */
export function writeMade(file: string, made: string): void {
  const text = existsSync(file) ? readFileSync(file, "utf8") : `${FROM}\n${TO}\n`;
  const [from, to] = [text.indexOf(FROM), text.indexOf(TO)];
  if (from < 0 || to < from) throw new Error(`${file}: the lines that enclose the part to be written anew are missing`);
  writeFileSync(file, `${text.slice(0, from)}${FROM}\n\n${made.trim()}\n\n${text.slice(to)}`);
}

/** A row of a Markdown table. */
export const row = (cells: readonly (string | number)[]) => `| ${cells.join(" | ")} |`;

/** A Markdown table whole. */
export const table = (head: readonly (string | number)[], rows: readonly (readonly (string | number)[])[]) =>
  [row(head), row(head.map(() => "---")), ...rows.map(row)].join("\n");
