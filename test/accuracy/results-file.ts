import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { parseArgs } from "node:util";

/** What the command line asks for: names to keep to (all where there is none), and the file that the tables are kept in. */
export function asked(words: readonly string[]): { readonly names: readonly string[]; readonly file: string | null } {
  const { values, positionals } = parseArgs({
    args: [...words],
    options: { only: { type: "string", multiple: true }, write: { type: "string" } },
    allowPositionals: true,
  });
  return { names: [...(values.only ?? []), ...positionals], file: values.write ?? null };
}

/** Puts a section of a Markdown file in the place of the one under the same heading, or at the end; the rest stays as it is. */
export function writeSection(file: string, heading: string, body: string): void {
  const sections = existsSync(file) ? readFileSync(file, "utf8").split(/^(?=## )/m) : [];
  const section = `## ${heading}\n\n${body.trim()}\n\n`;
  const at = sections.findIndex((each) => each.startsWith(`## ${heading}\n`));
  if (at < 0) sections.push(section);
  else sections[at] = section;
  writeFileSync(file, `${sections.map((each) => each.trimEnd()).join("\n\n")}\n`);
}

/**
 * Puts parts of a section, each under a heading of the third order, in the place of those under the same headings, or at the section's
 * end; the other parts stay as they are.
 */
export function writeParts(file: string, heading: string, parts: readonly { readonly heading: string; readonly body: string }[]): void {
  const pieces = bodyOf(file, heading).split(/^(?=### )/m);
  for (const part of parts) {
    const piece = `### ${part.heading}\n\n${part.body.trim()}\n`;
    const at = pieces.findIndex((each) => each.startsWith(`### ${part.heading}\n`));
    if (at < 0) pieces.push(piece);
    else pieces[at] = piece;
  }
  writeSection(file, heading, pieces.map((each) => each.trimEnd()).join("\n\n"));
}

/** Puts rows of a section's table in the place of those that begin with the same cells; the other rows stay, the new ones come last. */
export function writeRows(file: string, heading: string, firstCells: readonly string[], rows: readonly string[]): void {
  const stay = bodyOf(file, heading)
    .trimEnd()
    .split("\n")
    .filter((line) => !firstCells.some((cell) => line.startsWith(`| ${cell} |`)));
  writeSection(file, heading, [...stay, ...rows].join("\n"));
}

/** What stands under a heading of the second order; empty where there is no such heading. */
function bodyOf(file: string, heading: string): string {
  const sections = existsSync(file) ? readFileSync(file, "utf8").split(/^(?=## )/m) : [];
  const title = `## ${heading}\n`;
  return sections.find((each) => each.startsWith(title))?.slice(title.length) ?? "";
}

/** A row of a Markdown table. */
export const row = (cells: readonly (string | number)[]) => `| ${cells.join(" | ")} |`;

/** The head of a Markdown table. */
export const head = (cells: readonly string[]) => `${row(cells)}\n${row(cells.map(() => "---"))}`;

/** The day on which a table was made, as ISO 8601 writes it. */
export const today = () => new Date().toISOString().slice(0, 10);
