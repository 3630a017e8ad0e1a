import type { Refusal } from "#domain/outcome.ts";
import { refusedFile } from "#domain/refused-file.ts";
import { refusalLine, type Terminal } from "./terminal.ts";

/** Tells a refusal to whoever sits there; a program that asked is answered a line for each file that it is about. */
export function refuse(terminal: Terminal, files: readonly string[], refusal: Refusal, { json }: { readonly json?: boolean }): void {
  if (json) for (const file of files) terminal.answer(`${JSON.stringify(refusedFile(file, refusal))}\n`);
  terminal.tell(`${refusalLine(refusal)}\n`);
}
