import { existsSync, readFileSync, writeFileSync } from "node:fs";

/** Where a table is to be kept, as `--write FILE` on the command line says, and the other word given, if any. */
export function asked(words: readonly string[]): { readonly part: string; readonly file: string | null } {
  const at = words.indexOf("--write");
  const rest = at < 0 ? words : words.filter((_, index) => index !== at && index !== at + 1);
  const file = at < 0 ? null : (words[at + 1] ?? null);
  if (at >= 0 && file === null) throw new Error("say which file to write after --write");
  return { part: rest[0] ?? "", file };
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

/** A row of a Markdown table. */
export const row = (cells: readonly (string | number)[]) => `| ${cells.join(" | ")} |`;

/** The head of a Markdown table. */
export const head = (cells: readonly string[]) => `${row(cells)}\n${row(cells.map(() => "---"))}`;

/** The day on which a table was made, as ISO 8601 writes it. */
export const today = () => new Date().toISOString().slice(0, 10);
