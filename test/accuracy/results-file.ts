import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

/** The document that keeps what was measured last, beside what is written by hand. */
export const RESULTS = fileURLToPath(new URL("./RESULTS.md", import.meta.url));

/** Puts what a command made in the place of what it made last; what is written by hand before and after it stays. */
export function writeMade(file: string, command: string, made: string): void {
  const [fromLine, toLine] = [`<!-- from here written by: ${command} -->`, `<!-- up to here written by: ${command} -->`];
  const text = existsSync(file) ? readFileSync(file, "utf8") : `${fromLine}\n${toLine}\n`;
  const [from, to] = [text.indexOf(fromLine), text.indexOf(toLine)];
  if (from < 0 || to < from) throw new Error(`${file}: the lines that enclose what "${command}" writes are missing`);
  writeFileSync(file, `${text.slice(0, from)}${fromLine}\n\n${made.trim()}\n\n${text.slice(to)}`);
}

/** The day on which a table was made, as ISO 8601 writes it. */
export const today = () => new Date().toISOString().slice(0, 10);

/** A row of a Markdown table. */
export const row = (cells: readonly (string | number)[]) => `| ${cells.join(" | ")} |`;

/** A Markdown table whole. */
export const table = (head: readonly (string | number)[], rows: readonly (readonly (string | number)[])[]) =>
  [row(head), row(head.map(() => "---")), ...rows.map(row)].join("\n");
