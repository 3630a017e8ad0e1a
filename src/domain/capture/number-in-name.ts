import { numberInForm } from "../print/object-number.ts";
import { matchToPrint } from "./match-to-print.ts";

/**
 * The object number that a file's name seems to start with, whether or not a print has it: a known number, else one in the form that
 * the collection gives its numbers, or digits parted by points (1884.001.01). A hint for a person, never a reason to assign by itself.
 * @param known every number ever given
 * @param pattern e.g. `{year}.{item:3}`
 */
export function numberInName(fileName: string, known: Iterable<string>, pattern: string): string | null {
  const name = fileName.normalize("NFC").trim();
  const read = longer(numberInForm(name, pattern), /^\d+(?:\.\d+)+(?!\p{L})/u.exec(name)?.[0] ?? null);
  return longer(matchToPrint(name, known), read);
}

/** The longer one says more of the name: 1884.001 is in the form of {year}.{item:3}, but the file is one of 1884.001.01. */
function longer(a: string | null, b: string | null): string | null {
  if (a === null || b === null) return a ?? b;
  return b.length > a.length ? b : a;
}
